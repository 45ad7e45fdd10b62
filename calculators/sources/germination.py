"""Sources on germination, air and heat."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "ashrae-psychrolib": Source(
        "ASHRAE Handbook, Fundamentals (2017): formulas for moist air, as coded in psychrolib 2.5",
        "second-hand",
        "the code and its published tests were read, not the handbook",
    ),
    "starch-heat": Source(
        "Heat of burning: 2,803 kJ/mol of glucose; 17.39 MJ/kg of starch",
        "not citable",
        "both stood in printed tables that were not noted. A review to look in: Sánchez-Peña and others, Nutrition "
        "Reviews (2019)",
        "https://doi.org/10.1093/nutrit/nuz063",
    ),
    "thomson-1824": Source(
        "Thomson, T.: Brewing, chapter on malting, Supplement to the Encyclopædia Britannica (1824): "
        "14 days at about 62 °F, 18 to 21 at 55 °F; heap 10 °F over the air; at least two turnings a day; "
        "in the steep 100 measures become 109 to 138, English barley 124 on average; 100 lb weigh 147 lb newly taken "
        "from it, surface dry; ready when the kernel crumbles to powder between the fingers and the "
        "acrospire is near the end of the seed; losses 1.5 + 3.0 + 3.0 + 0.5 %",
        "read",
        "as typed text; one higher figure of swelling is a fault of the scan",
    ),
    "black-treatise": Source(
        "Black, W.: A Practical Treatise on Brewing, 4th edition, pp. 18 and 20: no definite rule for how often a "
        "piece is turned; water put on the bare floor before turning; the spire to the far end of the corn without "
        "coming out",
        "read",
    ),
    "cereals-processing": Source(
        "Owens, G. (ed.): Cereals Processing Technology, Woodhead and CRC Press (2001), chapter on malting, pp. 177, "
        "193 and 195: about two days in the steep to 43 to 46 %; 550 to 600 kg of barley on a square metre, beds of "
        "1.2 m at 12 to 16 or 15 to 19 °C, four to five days; green malt to the kiln at 40 to 45 %, dried to 4 to 5 %",
        "in a copy",
    ),
    "oxford-box": Source(
        "The Oxford Companion to Beer, entry on the germination box: rectangular boxes, beds of 60 to 80 cm, up to "
        "50 m "
        "long; screws on a moving crossbar pass through the bed two or three times a day; round vessels since the "
        "1980s",
        "in a copy",
        address="https://beerandbrewing.com/dictionary/CrfLZwEf1w/",
    ),
    "box-1884": Source(
        "Scientific American Supplement no. 433, 19 Apr 1884: a malting with germinating cases, turned by screws "
        "every "
        "eight to twelve hours; brushes on the screws skim the floor; the case also serves as the couch",
        "read",
        "the passage on the cases, in a copy",
    ),
    "heritage-malthouses": Source(
        "English Heritage: Maltings in England, p. 17 (rests between wettings; until at least the 1820s barley seems "
        "to "
        "have stayed in the water for the whole steep)",
        "in a copy",
        address="https://historicengland.org.uk",
    ),
    "asae-d272": Source(
        "ASAE D272.3 (1996): Resistance to airflow of grains, seeds and perforated metal sheets. Moist grain takes "
        "about "
        "80 % of the pressure of the curve, packed grain up to 50 % more; for loose, clean, fairly dry grain",
        "in a copy",
        "scope and notes; its table of constants was not read",
    ),
    "ergun-1952": Source(
        "Ergun, S.: Fluid flow through packed columns, Chemical Engineering Progress 48 (1952) 89",
        "second-hand",
        "as set out, with its range and an example, in the documentation of the open-source library fluids",
        "https://fluids.readthedocs.io/fluids.packed_bed.html",
    ),
    "molenda-ergun": Source(
        "Molenda, M., Montross, M. D., McNeill, S. G., Horabik, J.: Airflow resistance of seeds at different bulk "
        "densities using Ergun’s equation (corn, wheat, soybeans: within 76 Pa/m; how it was filled changed it "
        "tenfold)",
        "not citable",
        "the abstract was read; journal and year were not noted",
    ),
    "barley-corns-2009": Source(
        "Tavakoli, M., and others: Moisture-dependent physical properties of barley grains, Int. J. Agric. Biol. "
        "Eng. 2 "
        "(2009) no. 4, 84 (corns 4.23 to 4.75 mm in the mean)",
        "abstract",
        address="https://doi.org/10.3965/j.issn.1934-6344.2009.04.084-091",
    ),
    "niosh-augers": Source(
        "NIOSH 95-109: Safe grain and silage handling, section 4 (augers: the second largest single source of deaths "
        "in "
        "grain handling, 1985 to 1989)",
        "read",
    ),
    "evans-2024": Source(
        "Evans, D. E., Shen, W., Brookes, P.: Malting, J. Inst. Brew. 130 (2024) 126 "
        "(germination at 12 to 16 °C in humid air, 42 to 46 % moisture)",
        "abstract",
    ),
    "mueller-2014": Source(
        "Müller, C., and others: The influence of elevated germination temperatures, "
        "BrewingScience 2014 (5 to 7 days at 12 to 17 °C)",
        "abstract",
    ),
    "rye-2018": Source(
        "Micro-Malting for the Quality Evaluation of Rye Genotypes, Fermentation 4 (2018) 50 (no hull, dense packing "
        "in the steep; at least four days at 45 to 48 % and 16 °C, five days at 45 % recommended)",
        "abstract",
        address="https://doi.org/10.3390/fermentation4030050",
    ),
    "oats-2011": Source(
        "Muñoz-Insa, A., and others: Optimization of the malting process of oat, Spanish Journal of Agricultural "
        "Research 9 (2011) (eight days at 46 % and 17 °C for one variety, 47 % and 16 °C for another)",
        "abstract",
        address="https://doi.org/10.5424/sjar/20110902-002-10",
    ),
    "cnam-germination": Source(
        "Conservatoire national des arts et métiers, course on beer: germination "
        "(about 0.5 % of moisture lost a day, air near 100 % humidity)",
        "not citable",
        "its address was not noted",
    ),
    "malting-airflow": Source(
        "A Portuguese text on malting: beds of about 1 m, air at 3.7 m/min",
        "not citable",
        "its title was not noted. With 550 to 600 kg/m² this makes 370 to 404 m³/h a tonne; joining the two is our "
        "step",
    ),
    "davidson-1978": Source(
        "Davidson, D. E., Jangaard, N. O.: The effect of a wet and dry steep-out on barley respiration, "
        "J. Am. Soc. Brew. Chem. 36 (1978) 51",
        "abstract",
    ),
    "day-1891": Source(
        "Day, T. C.: The influence of temperature on germinating barley, J. Chem. Soc. Trans. 59 (1891) 664",
        "not read",
        "only its opening was read; its tables are the ones to look for",
    ),
    "merveilles-floor": Source(
        "Figuier, L.: Les Merveilles de l’industrie (1870s), p. 339: layer of 15 to 18 cm, turned every six and "
        "later every eight hours, 6 to 10 °C over the air",
        "read",
        "author and decade from memory",
    ),
    "wright-floor": Source(
        "Wright, F. B.: A Practical Handbook on the Distillation of Alcohol from Farm Products (about 1907): couch 8 "
        "to 20 inches, the colder the thicker, turned every six to eight hours; floors from 6 down to 2 inches, "
        "turned at least twice a day; roots that fade lack water",
        "in a copy",
        "the year from memory",
    ),
    "companion-floor-malting": Source(
        "The Oxford Companion to Beer, floor malting: a layer of about 15 cm, turned by hand twice a day; to the kiln"
        " when the acrospires are almost as long as the corns",
        "read",
        address="https://beerandbrewing.com/dictionary/yq2r7ePj7z/floor-malting/",
    ),
    "fens-air": Source(
        "Food and Environment Safety, University of Suceava: air conditioning in the germination of malt "
        "(grain at 12 to 18 °C, air at 100 % humidity)",
        "abstract",
        address="http://fens.usv.ro",
    ),
    "lintner-1884": Source(
        "Lintner, C. (1884): growth stops at about 20 % carbon dioxide; such air kills a person within minutes",
        "read",
    ),
    "slab-heat": Source(
        "Heat in a slab, warmed evenly and cooled at its face: series in the textbooks (Carslaw & Jaeger; Crank)",
        "not read",
        "from memory; the tests check it against printed values and against a finite-difference solution",
    ),
    "drum-plant": Source(
        "A refrigeration trade page on maltings: turning drums for up to 20 t, up to 3.5 m across and "
        "17 m long, aired at 10 °C",
        "not citable",
        "its address was not noted",
    ),
    "swelling-handbook": Source(
        "A handbook text in Polish: a hectolitre of barley becomes up to 1.45 hl in the steep",
        "not citable",
        "its title was not noted",
    ),
    "bulk-density": Source(
        "Bulk densities of barley, 568 to 623 kg/m³; 48 lb a bushel is 618",
        "not citable",
        "the papers were not noted; they disagree on how it changes with moisture. The bushel is arithmetic",
    ),
}
