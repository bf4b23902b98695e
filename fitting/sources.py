"""The citations behind the numbers, by short key."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

Kind = Literal["published", "common_practice", "ours"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One citation; ``kind`` says how far to trust it."""

    key: str
    text: str
    kind: Kind


PUBLISHED: Final = {
    # Mouth and bit
    "anttila_2022": "Anttila, Raekallio, Valros (2022), Frontiers in Veterinary Science"
    " 9:879048: mouth, jaw gap and tongue of 554 grown horses, and which bits fit",
    "clayton_1998": "Clayton (1998/99), Fitting the jointed snaffle bit, Michigan State"
    " University",
    "lpo_70": "German competition code (LPO) paragraph 70 (2013), read second-hand",
    "tuomola_2021": "Tuomola, Mäki-Kihniä, Valros, Mykkänen, Kujala-Wirth (2021),"
    " Frontiers in Veterinary Science 8:651160: sore mouths of 208 event horses",
    "tuomola_2019": "Tuomola et al. (2019), Frontiers in Veterinary Science 6:206:"
    " sore mouths of 261 trotters",
    "engelke_gasse_2002": "Engelke, Gasse (2002), Pferdeheilkunde 18(4):367-372",
    "manfredi_2005": "Manfredi et al. (2005), Equine and Comparative Exercise"
    " Physiology 2(3):195-201",
    "tell_2008": "Tell, Egenvall, Lundström, Wattle (2008), The Veterinary Journal"
    " 178:405-410",
    "us_equestrian_2019": "US Equestrian rule EV115.2.d (2019): least thickness of a"
    " snaffle, horses 14 mm, ponies 10 mm",
    # Bridle and noseband
    "sms_bridle": "Society of Master Saddlers, Fitting a bridle correctly",
    "fei_noseband_2025": "FEI Veterinary Regulations article 1044.8, in force 1 May"
    " 2025: the stewards' noseband measure",
    "ises_noseband": "International Society for Equitation Science, position on"
    " nosebands",
    "feif_noseband_2022": "FEIF noseband rule, 27 March 2022",
    "mcgreevy_2012": "McGreevy, Warren-Smith, Guisard (2012), Journal of Veterinary"
    " Behavior: nosebands and the nose of chewing horses",
    "uldahl_clayton_2019": "Uldahl, Clayton (2019), Equine Veterinary Journal"
    " 51(2):154-162: sore lips of 3,143 Danish sport horses",
    "murray_2015": "Murray, Guire, Fisher, Fairfax (2015), Journal of Equine Veterinary"
    " Science: pressure under the headpiece",
    "foal_headcollar": "A feed research centre's article on foal headcollars: look at"
    " the fit every day",
    # Saddle and back
    "greve_dyson_2015": "Greve, Dyson (2015), The Veterinary Journal 206:39-46",
    "sms_recheck": "Society of Master Saddlers, members on saddle rechecks",
    "mackechnie_guire_2019": "MacKechnie-Guire et al. (2019), Animals 9(10):842",
    "dyson_carson_2015": "Dyson, Carson, Fisher (2015), Equine Veterinary Education",
    # Measuring
    "lamas_2007": "Lamas, Giovagnoli, Heath, Jeffcott (2007), Veterinary Record"
    " 160(20):691-694: how far height readings differ",
    "curtis_2010": "Curtis, Grove-White, Ellis, Argo (2010), Veterinary Record"
    " 167(4):127-133: height by stick and laser",
    "ellis_hollands_1998": "Ellis, Hollands (1998), Veterinary Record 143:335: weigh"
    " tape, formula and eye on 600 horses",
    "brooks_2010": "Brooks et al. (2010), Animal Genetics 41 Suppl 2:159-165: body"
    " measures of grown horses",
    # Growth
    "nrc_2007": "National Research Council (2007), Nutrient Requirements of Horses,"
    " 6th edition",
    "sveinsson_1993": "Sveinsson (1993, 1994), Rit Búvísindadeildar: Icelandic foals"
    " measured from birth to four years",
    "radunautafundur_1994": "Ráðunautafundur (1994), p. 85: Icelandic measures in per"
    " cent of the size at six and a half years",
    "fradinho_2015": "Fradinho, Bessa, Ferreira-Dias, Caldeira (2015), Livestock"
    " Science: growth of Lusitano horses on grazing",
    "lewis_growth": "Lewis, Feeding and Care of the Horse: growth of the light horse,"
    " read second-hand",
    "czech_warmblood": "The growth curves for some biometric traits in Czech Warmblood"
    " stallions: 7,488 records, 7 to 36 months",
    "baban_lipizzan": "Baban et al., Agriculturae Conspectus Scientificus: body"
    " measures of 912 Lipizzan horses from foal to grown",
    "thompson_1995": "Thompson (1995), abstract: in 106 Thoroughbred foals the hip"
    " stood 2 to 3 cm over the withers from 14 to 588 days",
    "ardennes_thesis": "A Belgian thesis on 32 Ardennes foals: croup about 6 cm over"
    " the withers at 8 to 18 months",
    # Weight and condition
    "carroll_huntington_1988": "Carroll, Huntington (1988), Equine Veterinary Journal"
    " 20(1):41-45, abstract: weight from girth and length of grown horses",
    "minnesota_weight": "University of Minnesota, College of Veterinary Medicine, page"
    " on body measurements: girth² x length / 330, inches to pounds",
    "young_divisors": "Owners' pages on weanlings and yearlings (280, 301), read"
    " second-hand: no study found behind them",
    "rodriguez_2007": "Rodriguez et al. (2007), Veterinary Record, read second-hand:"
    " weight of 80 Thoroughbred foals from the girth",
    "icelandic_weight": "An abstract on Icelandic horses weighed and taped: girth² x"
    " length / 11,400, in centimetres",
    "utrecht_weigh_tape": "Student study at Utrecht University: weigh tapes on horses,"
    " ponies and small ponies",
    "gorniak_2020": "Górniak, Wieliczko, Soroko, Korczyński (2020), Animals 10: seven"
    " formulas on 299 grown horses; none was best for all breeds",
    "henneke_1983": "Henneke et al. (1983), Equine Veterinary Journal 15: nine steps of"
    " condition, read second-hand",
    "giles_2015": "Giles et al. (2015), BMC Veterinary Research 11:13: crest and"
    " condition of horses and ponies",
    # Bones and load
    "strand_2007": "Strand, Braathen, Hellsten, Huse-Olsen, Bjornsdottir (2007), Acta"
    " Veterinaria Scandinavica 49:19: when growth plates close",
    "rogers_2021": "Rogers, Gee, Dittmer (2021), Animals 11(12):3402: when is a horse"
    " skeletally mature",
    "haussler_1997": "Haussler, Stover, Willits (1997), American Journal of Veterinary"
    " Research 58(10):1083-1091",
    # How youngsters are brought on
    "visser_2009": "Visser, van Dierendonck, Ellis, Rijksen, van Reenen (2009), The"
    " Veterinary Journal 181:48-52: signs of stress in 28 youngsters being started",
    # Teeth and ages
    "teeth_three_months": "An equine dental practice's advice: first check about"
    " three months before backing, so that a socket can heal",
    "teeth_six_months": "Advice of veterinary and dental practices: every six months"
    " under five years; at least yearly for all",
    "caps_30_48": "A veterinary practice's advice to owners: milk cheek teeth are lost"
    " between 2½ and 4 years",
    "munroe_teeth": "Munroe (ed.), Equine Clinical Medicine, Surgery and Reproduction,"
    " 2nd edition, table 4.1: when teeth break through and come into wear",
    "coumbe_teeth": "Coumbe, The Veterinary Care of the Horse: when permanent teeth"
    " come",
    "craig_1912": "Craig (1912), Common Diseases of Farm Animals: when permanent teeth"
    " come",
    "beva_2010_wolf": "BEVA Congress (2010), abstract on wolf teeth: through at 6 to 18"
    " months; 40 to 80 % of horses have one, 15 to 20 % of those over 2½ years",
    # Care
    "msu_gelding": "Michigan State University, veterinary school, on the time after"
    " castration: movement every day for two weeks or until healed",
    "quiet_vaccination": "A horse magazine's advice: nothing new along with a"
    " vaccination, light work that day and the next",
    "feet_4_8": "Farriers' and veterinary pages on feet, four to eight weeks between"
    " visits, foals about monthly; they differ",
    "aaep_parasites_2024": "American Association of Equine Practitioners (2024),"
    " Internal parasite control guidelines: egg counts, no fixed intervals",
    "flu_2024": "Veterinary practices on the flu rules of show bodies from 1 January"
    " 2024: second after 21 to 60 days, third 120 to 180 days after that",
    "fei_flu_2019": "FEI Veterinary Regulations (2019): flu vaccination within six"
    " months and 21 days of arrival, and not within 7 days before it",
    "bml_2020": "German ministry's guidelines on horses, revised 2020: training for use"
    " from 30 months of true age, racehorses apart",
    "fn_backing": "German equestrian federation's handbook, read second-hand: first"
    " ridden at about three years",
    "hire_2018": "Animal Welfare (Licensing of Activities Involving Animals) (England)"
    " Regulations 2018, SI 2018/486: no horse under three years hired out for riding",
    "dyson_load_2020": "Dyson et al. (2019/20), Equine Veterinary Education, eve.13085:"
    " rider weight, a pilot study",
    "british_dressage_2023": "British Dressage members' handbook (2023), read"
    " second-hand: rider and all equipment at most 20 % of the horse's weight",
    "equestrian_australia_load": "Equestrian Australia's guide, read second-hand: rider"
    " and tack at most 20 %, and less for young horses",
    "logan_nielsen_2021": "Logan, Nielsen (2021), Animals 11(2):463: training young"
    " horses",
    "powell_2008": "Powell, Bennett-Wimbush, Peeples, Duthie (2008), Journal of Equine"
    " Veterinary Science 28:28-33, as a university's extension service tells it",
    "christensen_2020": "Christensen, Bathellier, Rhodin, Palme, Uldahl (2020), Animals"
    " 10(1):95: heavier riders, 20 pairs, one short test",
    "load_review_2021": "A review of loads carried by horses, donkeys and mules (2021),"
    " Animals (PMC8151148)",
    "abrs_load": "Association of British Riding Schools, read second-hand: 20 % with"
    " tack; an inexperienced rider of 80 kg counts as 88 kg",
}

_UNPUBLISHED: Final = (
    Source(
        key="common_practice",
        text="Common practice, no published source",
        kind="common_practice",
    ),
    Source(key="ours", text="Ours: a policy or an assumption, not proven", kind="ours"),
)

SOURCES: dict[str, Source] = {
    **{
        key: Source(key=key, text=text, kind="published")
        for key, text in PUBLISHED.items()
    },
    **{source.key: source for source in _UNPUBLISHED},
}
