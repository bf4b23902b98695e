"""What each kind of cheek, mouthpiece and material does for a young mouth.

A sentence each with the keys of its sources. Nothing here forbids a bit: what speaks
against it as a first one is a caution.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from fitting.sources import SOURCES, Source

FirstAnswer = Literal["suits", "caution", "not_known"]
COMMON: Final = ("common_practice",)


@dataclass(frozen=True, slots=True, kw_only=True)
class BitWords:
    """What one kind does; ``against``: what speaks against it as a first bit."""

    does: str
    against: str = ""
    sources: tuple[str, ...] = COMMON

    @property
    def rests_on(self) -> tuple[Source, ...]:
        """The sources of the sentence."""
        return sources_of((self,))


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstBit:
    """Whether a bit suits as the first one: never a no."""

    answer: FirstAnswer
    said: tuple[str, ...]


CHEEKS: Final[Mapping[str, BitWords]] = {
    "eggbutt": BitWords(
        does="Does not turn in the mouthpiece, so the bit lies still and the cheek"
        " cannot pinch the corner of the lips."
    ),
    "dee": BitWords(
        does="Lies still like an eggbutt; its straight side rests along the lips and"
        " helps to turn."
    ),
    "full_cheek": BitWords(
        does="Arms above and below help to turn a youngster that does not steer yet,"
        " and keep the bit from being pulled through the mouth; they can catch on"
        " things."
    ),
    "hanging_cheek": BitWords(
        does="Hangs from the cheekpiece and lies the stillest of all; the rein is felt"
        " less directly."
    ),
    "loose_ring": BitWords(
        does="The ring slides through the mouthpiece, so the bit moves with every touch"
        " of the rein, and needs more room.",
        against="rings that slide can pinch the corners of the mouth: better one with"
        " fixed cheeks, if there is one",
    ),
}
MOUTHPIECES: Final[Mapping[str, BitWords]] = {
    "single_jointed": BitWords(
        does="Folds under the rein, so that each side can be felt by itself; of grown"
        " event horses those in it had the fewest sore bars, 5 in a hundred.",
        sources=("tuomola_2021", "common_practice"),
    ),
    "double_jointed": BitWords(
        does="A link lies over the tongue, so it bends round it; a smooth one kept off"
        " the palate under the rein. A link as long as the lower jaw is wide presses"
        " on both bars.",
        sources=("manfredi_2005", "anttila_2022", "common_practice"),
    ),
    "straight_bar": BitWords(
        does="Simple and still; both sides move as one, so a green horse is harder to"
        " steer straight. Of grown event horses 40 in a hundred in an unjointed bit"
        " had sore bars.",
        against="nothing bends to the tongue: look at the bars after each use",
        sources=("tuomola_2021", "common_practice"),
    ),
    "mullen": BitWords(
        does="A bar curved over the tongue, which leaves it more room than a straight"
        " one; both sides still move as one. Of grown event horses 40 in a hundred in"
        " an unjointed bit had sore bars.",
        against="nothing bends to the bars: look at them after each use",
        sources=("tuomola_2021", "common_practice"),
    ),
    "with_keys": BitWords(
        does="Keys lie on the tongue and set it playing with the bit, for a few minutes"
        " at a time; no reins.",
        against="opinions differ on keys: some horses go on fidgeting with any bit",
    ),
}
# The first that stands in what was typed, so "sweet iron" before "iron".
MATERIALS: Final[tuple[tuple[str, str, BitWords], ...]] = (
    (
        "steel",
        "steel",
        BitWords(
            does="Hard and smooth, and shows no tooth marks; warm it in the hand."
        ),
    ),
    (
        "rubber",
        "rubber",
        BitWords(
            does="Soft and warm, often too thick for a small mouth, and soon chewed"
            " through.",
            against="chewed rubber is no longer smooth: feel along it each time",
        ),
    ),
    *(
        (
            word,
            "nylon or plastic",
            BitWords(
                does="Light and warm, and gives a little; teeth leave edges in it.",
                against="teeth roughen it: feel along it each time",
            ),
        )
        for word in ("nylon", "plastic")
    ),
    *(
        (
            word,
            "copper or iron",
            BitWords(
                does="Said to taste better and make the mouth moist; softer than steel,"
                " so it wears to edges sooner.",
                against="it wears: feel for edges beside the rings",
            ),
        )
        for word in ("copper", "brass", "iron")
    ),
    (
        "leather",
        "leather",
        BitWords(
            does="Soft and warm; it dries hard, stretches and is soon chewed.",
            against="dried leather is no longer smooth: keep it supple",
        ),
    ),
)
NAMES: Final[Mapping[str, str]] = {
    "full_cheek": "full cheek",
    "hanging_cheek": "hanging cheek",
    "loose_ring": "loose ring",
    "single_jointed": "single-jointed",
    "double_jointed": "double-jointed",
    "straight_bar": "straight bar",
    "mullen": "mullen mouth",
    "with_keys": "with keys",
}
SUITS: Final = "Plain, and it lies still: what a first bit should be, if it is smooth."


def all_kinds() -> tuple[tuple[str, tuple[tuple[str, BitWords], ...]], ...]:
    """Return every kind with its words, under cheeks, mouthpiece and material."""
    made = {name: said for _, name, said in MATERIALS}
    kinds = (("Cheeks", CHEEKS), ("Mouthpiece", MOUTHPIECES), ("Material", made))
    return tuple(
        (
            title,
            tuple((NAMES.get(key, key), said) for key, said in of.items()),
        )
        for title, of in kinds
    )


def of_material(material: str) -> tuple[str, BitWords] | None:
    """Return what a material is called and does; None: unknown to us."""
    typed = material.casefold()
    found = ((name, said) for word, name, said in MATERIALS if word in typed)
    return next(found, None)


def words_of(cheek: str, mouthpiece: str, material: str) -> tuple[BitWords, ...]:
    """Return what is said of a bit: cheek, mouthpiece, material, as far as known."""
    made = of_material(material)
    found = (CHEEKS.get(cheek), MOUTHPIECES.get(mouthpiece), made[1] if made else None)
    return tuple(said for said in found if said is not None)


def as_first_bit(cheek: str, mouthpiece: str, material: str) -> FirstBit:
    """Return whether a bit suits a young horse as its first: a caution, never a no."""
    against = [w.against for w in words_of(cheek, mouthpiece, material) if w.against]
    if against:
        said = tuple(f"{one[:1].upper()}{one[1:]}." for one in against)
        return FirstBit(answer="caution", said=said)
    missing = [
        name
        for name, known in (("cheeks", cheek), ("mouthpiece", mouthpiece))
        if not known
    ]
    if missing:
        said = (f"Write down which {' and '.join(missing)} it has.",)
        return FirstBit(answer="not_known", said=said)
    return FirstBit(answer="suits", said=(SUITS,))


def sources_of(said: Iterable[BitWords]) -> tuple[Source, ...]:
    """Return the sources of several sentences, each once."""
    keys = dict.fromkeys(key for one in said for key in one.sources)
    return tuple(SOURCES[key] for key in keys)
