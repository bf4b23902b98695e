"""A yard file in which every key that a file may have stands at least once."""

from __future__ import annotations

import json
from copy import deepcopy
from datetime import date
from typing import Any

from django.apps import apps

from fitting.models import Yard
from starting.yardfile import load_yard

Table = dict[str, Any]
ON = date(2026, 11, 25)  # a Wednesday


def rich() -> Table:
    """Return a fresh copy, to be changed at will."""
    return deepcopy(RICH)


def load(table: Table, **how: Any) -> Yard:
    how.setdefault("on", ON)
    return load_yard(json.dumps(table).encode(), **how)


def small(**keys: Any) -> Table:
    horse = {"name": "Sorrel", "sex": "filly", "foaled": "2024-04-19", "type": "pony"}
    table = {
        "format": "yard-file",
        "version": 1,
        "yard": {"name": "Fallow Bottom"},
        "horses": [horse],
    }
    return {**table, **keys}


def every_row() -> dict[str, int]:
    """Count the rows of every model, their histories too."""
    return {m._meta.label: m._default_manager.count() for m in apps.get_models()}


YOUNGSTER: Table = {
    "id": "sorrel",
    "name": "Sørrel ½",
    "sex": "filly",
    "foaled": "2024-04",
    "type": "pony",
    "grown": False,
    "lives_out": True,
    "dam_height": "13.0 1/2",
    "sire_height": "137.5 cm",
    "clearances": {
        "bit": "6 mm",
        "bridle": "1/4",
        "edges": [
            {
                "edge": "strap.noseband.good_from",
                "to": "1 1/2",
                "by": "Maud",
                "on": "-20d",
                "why": "Chews more than most.",
            },
        ],
    },
    "plan": {
        "programme": "Later backing",
        "aim": {"stage": "long_reins_out", "by": "+80w sat"},
        "as_early_as_allowed": True,
        "rider": "Perrin",
        "trainer": "Maud",
        "tack_weight": "4.5 kg",
    },
    "measurements": [
        {
            "measure": "withers_height",
            "on": "-300d",
            "readings": ["12.1", "12.1 1/4", "124.5 cm"],
            "method": "stick",
            "same_person": True,
            "who": "Maud",
            "shod": False,
            "note": "On the yard.",
        },
        {
            "measure": "withers_height",
            "on": "-57w tue",
            "readings": ["13.1"],
            "method": "stick",
            "shod": True,
            "struck": "The stick stood on the rope.",
        },
        {
            "measure": "mouth_width",
            "on": "-57w tue",
            "readings": ["4 1/8", "105 mm", "10.5 cm"],
            "method": "dowel",
        },
        {
            "measure": "weight",
            "on": "2026-10-10",
            "readings": ["257", "566 lb"],
            "method": "weigh_tape",
        },
        {
            "measure": "condition_score",
            "on": "2026-10-10",
            "readings": ["5", 5.5, 6],
            "method": "eye",
        },
    ],
    "tryons": [
        {
            "on": "-40d",
            "item": "Small eggbutt",
            "how": "held",
            "answer": "good",
            "who": "Maud",
            "parts": [{"part": "mouthpiece", "seen": "sits_right"}],
            "note": "Against the lips.",
        },
        {
            "on": "-14d",
            "set": "Sørrel's bridle",
            "how": "worn",
            "answer": "watch",
            "parts": [
                {"part": "cheekpieces", "seen": "sits_right", "hole": 4},
                {"part": "browband", "seen": "rubs"},
                {"part": "noseband", "seen": "sits_right", "gap": "2 fingers"},
            ],
            "stop": "ring_vet",
            "stop_sign": "A sore behind the ear.",
        },
        {
            "on": "-12d",
            "set": "Sørrel's bridle",
            "how": "worn",
            "parts": [{"part": "cheekpieces", "seen": "too_long", "hole": 1}],
            "struck": "On the grown mare's hole.",
        },
    ],
    "first_worn": [
        {
            "kind": "headcollar",
            "item": "Foal slip",
            "on": "2024-05-02",
            "who": "Maud",
            "how_it_went": "Quietly.",
        },
        {"kind": "rug", "on": "2025-01-03"},
    ],
    "stages": [
        {
            "stage": "company",
            "state": "established",
            "on": "2024-06-01",
            "note": "Seen.",
        },
        {"stage": "first_headcollar", "state": "left_out", "on": "2024-06-01"},
    ],
    "sessions": [
        {
            "on": "-10d",
            "stage": "feet",
            "minutes": 15,
            "checks": {"foot_tapped_picked_out": "nearly", "stands_first_trim": "yes"},
            "stop": {"sign": "leans_or_snatches", "level": "end_today"},
            "worn": [
                {
                    "item": "Foal slip",
                    "part": "nose",
                    "seen": "too_long",
                    "hole": 2,
                },
                {"set": "Sørrel's bridle"},
            ],
            "on_the_day": {"second_person": True, "daylight": False},
            "mood": "tired",
            "who": "Perrin",
            "note": "Stopped.\nToo long a day.",
        },
        {"on": "-3d", "stage": "feet", "stop": ""},
    ],
    "care": [
        {
            "kind": "teeth",
            "on": "-60d",
            "clear": False,
            "wolf_teeth": "out",
            "healing_until": "-40d",
            "next": "+120d",
            "who": "The dentist",
            "note": "Two out.",
        },
        {"kind": "farrier", "on": "-20d"},
    ],
    "incidents": [{"on": "-90d", "what": "line_dragged", "note": "Quiet after."}],
    "off_work": [
        {"from": "-200d", "why": "Thrush", "until": "-190d"},
        {
            "from": "-100d",
            "why": "Cut knee",
            "cleared_by": "the vet",
            "cleared_on": "-80d",
        },
    ],
    "rests": [
        {"from": "2025-06-01", "to": "2025-09-01", "why": "Grass"},
        {"from": "+200d"},
    ],
    "ticked": [
        {
            "task": "care/tooth_change-from-24",
            "due": "2026-04-01",
            "on": "-9d",
            "who": "Maud",
        },
        {"task": "stage_opens/roller", "due": "-8d", "on": "-8d", "who": "Perrin"},
    ],
    "went_ahead": [
        {
            "stage": "mouthing",
            "gate": "teeth",
            "reason": "The dentist comes on Friday.",
            "who": "Maud",
            "on": "-5d",
        }
    ],
}

RICH: Table = {
    "format": "yard-file",
    "version": 1,
    "yard": {
        "name": "Fallow Bottom",
        "timezone": "Europe/Dublin",
        "hemisphere": "south",
        "units": {"height": "hands", "length": "in", "weight": "kg"},
        "free_days": ["sat", "mon"],
        "helper_days": ["sat"],
        "sessions_a_day": 3,
        "covered_area": True,
        "settings": {
            "paper": "a4",
            "and": {"more": [1, 2.5, None]},
            "clearances": [
                {
                    "edge": "roller.spare",
                    "to": "10 cm",
                    "by": "Maud",
                    "on": "-40d",
                    "why": "They grow fast here.",
                },
                {
                    "edge": "strap.headcollar_crown.no_below",
                    "to": "less 4",
                    "by": "Maud",
                    "on": "-40d",
                },
                {"edge": "roller.spare", "to": None, "by": "Jo", "on": "-1d"},
            ],
        },
    },
    "people": [
        {
            "name": "Perrin",
            "can": ["ride", "handle"],
            "weight": "150 lb",
            "has_backed_horses": True,
            "child": False,
        },
        {"name": "Maud", "can": ["train"], "weight": "68", "child": True},
    ],
    "horses": [
        YOUNGSTER,
        {
            "name": "Old Ash",
            "sex": "gelding",
            "foaled": "2011",
            "type": "heavy",
            "grown": True,
        },
        {"name": "Ash", "sex": "colt", "foaled": "-30w", "type": "warmblood"},
    ],
    "tack": [
        {
            "id": "small-eggbutt",
            "name": "Small eggbutt",
            "kind": "bit",
            "label_size": '4 1/2"',
            "belongs_to": "Maud",
            "bought": "2026-01-05",
            "note": "Smooth.",
            "loans": [
                {
                    "to": "Sørrel ½",
                    "from": "-15d",
                    "own_hole": 3,
                    "back_by": "+30d",
                    "returned": "+20d",
                }
            ],
            "parts": [
                {
                    "part": "mouthpiece",
                    "length": "4 1/2",
                    "thickness": "14 mm",
                    "cheek": "eggbutt",
                    "mouthpiece": "single_jointed",
                    "material": "steel",
                    "ring": "2 1/2 in",
                }
            ],
        },
        {
            "name": "Brown bridle",
            "kind": "bridle",
            "parts": [
                {
                    "part": "headpiece",
                    "length": "24",
                    "holes": 5,
                    "spacing": "22 mm",
                    "strap_width": "5/8 in",
                    "hole": 3,
                },
                {
                    "part": "cheekpieces",
                    "shortest": "7 1/4",
                    "longest": "20.5 cm",
                    "holes": 7,
                    "spacing": "7/8",
                },
                {"part": "browband", "length": "340 mm"},
                {"part": "noseband", "shortest": "20", "longest": "22"},
                {"part": "throatlash", "longest": "30"},
            ],
        },
        {
            "name": "Whole bridle",
            "kind": "bridle",
            "parts": [{"part": "whole", "length": "1 m", "holes": 5, "hole": 2}],
        },
        {"name": "Foal slip", "kind": "headcollar"},
        {"name": "Torn rug", "kind": "rug", "gone": "-100d"},
    ],
    "sets": [
        {
            "name": "Sørrel's bridle",
            "parts": {
                "headpiece": "Brown bridle",
                "cheekpieces": "Brown bridle",
                "browband": "Brown bridle",
                "noseband": "Brown bridle",
                "throatlash": "Brown bridle",
                "bit": "Small eggbutt",
            },
        },
        {"name": "Show", "parts": {"whole": "Whole bridle"}, "gone": "-40d"},
    ],
    "programmes": [
        {
            "name": "Later backing",
            "from": "default",
            "changes": {
                "stages": {
                    "astride": {"earliest_months": 42, "typical_months": [44, 54]},
                    "side_reins": {"enabled": False},
                }
            },
            "made": "2026-10-02T17:40:00+00:00",
            "who": "Maud",
            "why": "They grow slowly here.",
        },
        {
            "name": "Later backing (2)",
            "from": "default",
            "changes": {"settings": {"settle_days": 10}},
            "version_of": "Later backing",
            "made": "2026-11-05T08:10:00+00:00",
        },
    ],
    "bought": [
        {"horse": "Sørrel ½", "kind": "bit", "part": "mouthpiece", "on": "-30d"},
        {"horse": "Ash", "kind": "headcollar", "on": "2026-11-01"},
    ],
}
