"""Sources on counts, intake, readiness, losses and the heat of drying."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "clopper-pearson": Source(
        "Clopper, C. J., Pearson, E. S.: The use of confidence or fiducial limits, Biometrika 26 (1934) 404",
        "not read",
        "published vectors of the method were read: 42 of 100 gives 32.2 to 52.3 %",
    ),
    "wilson-1927": Source(
        "Wilson, E. B.: Probable inference, the law of succession, and statistical inference, "
        "J. Am. Stat. Assoc. 22 (1927) 209",
        "not read",
        "published vectors of the method were read: 34 of 120 gives 21.0 to 37.0 %",
    ),
    "newcombe-1998": Source(
        "Newcombe, R. G.: Interval estimation for the difference between independent proportions: "
        "comparison of eleven methods, Statistics in Medicine 17 (1998) 873, method 10",
        "abstract",
        "two of its numeric cases second-hand, in the tests of a program library",
        address="https://doi.org/10.1002/(SICI)1097-0258(19980430)17:8<873::AID-SIM779>3.0.CO;2-I",
    ),
    "cfr-201-55": Source(
        "United States, Federal Seed Act regulations, 7 CFR 201.55(a): table of the greatest range tolerated "
        "between replicates of 100 seeds",
        "in a copy",
        "rows down to 71 %, of an edition before the revision of 2020",
        address="https://www.ecfr.gov/current/title-7/section-201.55",
    ),
    "barley-lab-germination": Source(
        "Montana State University, barley, malt and brewing quality laboratory: Germination "
        "(100 corns in 4 ml, a second set in 8 ml, 20 °C, three days, counted and removed; its example decisions)",
        "read",
        address="https://www.montana.edu/barleybreeding/learning-center/learn-about-testing/germination.html",
    ),
    "asbc-barley-3": Source(
        "American Society of Brewing Chemists, Barley-3 Germination (2 × 100 corns between blotters, "
        "counted at 44 to 48 h and at 72 h)",
        "in a copy",
        "the first page",
        address="http://methods.asbcnet.org",
    ),
    "mebak-brf": Source(
        "MEBAK R-110: germinative energy by the BRF method (100 corns in 4 ml and 100 in 8 ml); "
        "water sensitivity R-110.34.612",
        "read",
        "the published summaries",
        address="https://mebak.org/en/suche?tag=BRF",
    ),
    "mccafferty-1999": Source(
        "McCafferty, C. A., Bryce, J. H. (1999), on the germination index (its highest value is 10)",
        "not citable",
        "its title was not noted",
    ),
    "mebak-pre-germination": Source(
        "MEBAK R-110.37.600, Pre-germination in barley: visible pre-germination is grounds for rejecting a lot",
        "read",
        "the published summary",
        address="https://mebak.org/en/methode/r-110-37-600/pre-germination-in-barley-copper-sulfate-method/2577",
    ),
    "magb-intake": Source(
        "Maltsters’ Association of Great Britain: barley requirements, intake and moisture "
        "(capacity at least 98 %; at most 14.5 % moisture from 1 November)",
        "read",
        address="https://ukmalt.com/uk-malting-industry/barley-requirements",
    ),
    "magb-nitrogen": Source(
        "Maltsters’ Association of Great Britain, Malting Barley Committee: nitrogen wanted in trial barley, "
        "brewing 1.55 to 1.75 %, distilling at most 1.65 %",
        "read",
        "said of trials, not of every contract",
        address="https://www.ukmalt.com/uk-malting-industry/malting-barley-committee/mbc-protocols-procedures/",
    ),
    "magb-ergot": Source(
        "Maltsters’ Association of Great Britain: gallery of fungal infections "
        "(ergot: dark purple to black bodies, rich in poison; reasons to reject)",
        "read",
        address="https://ukmalt.com/publications/galleries/fungal-infections",
    ),
    "bmbri-drying": Source(
        "Brewing and Malting Barley Research Institute, Canada: harvest and drying of malting barley "
        "(drying air at most 43 °C; at most 13.5 % moisture; under 95 % germination rejected)",
        "read",
        address="http://bmbri.ca/malting-industry-urges-caution-when-drying-malting-barley/",
    ),
    "hgca-topic-60": Source(
        "Home-Grown Cereals Authority, Topic Sheet 60, Ensuring good germination in malting barley (summer 2002) (air"
        " at most 65 °C at 20 % moisture, 1 °C less for each 1 % more; grain at most 50 °C; dry to 13 %; fungi from "
        "14 to 14.5 %)",
        "in a copy",
    ),
    "hgca-temperature": Source(
        "Home-Grown Cereals Authority, The grain storage guide, 2nd edition (2003), section 5: temperature (below 15 "
        "°C within two to three weeks; insects breed fast at 25 to 33 °C, most not below 15 °C)",
        "in a copy",
        address="https://ahdb.org.uk/grainstorage",
    ),
    "csl-cooling": Source(
        "Central Science Laboratory, quoted in the farming press: malting barley is held at 10 °C, other grain at 5 °C",
        "read",
        "a newspaper article",
        address="https://www.fwi.co.uk/arable/cool-grain-to-avoid-bug-problems",
    ),
    "tetrazolium": Source(
        "Determination of germinative capacity of barley by means of tetrazolium salts, J. Inst. Brew. 56 (1950) 125; "
        "Bishop, L. R.: Ultra-rapid method, J. Inst. Brew. 63 (1957) (heat-damaged corns can stain though dead)",
        "abstract",
        address="https://doi.org/10.1002/j.2050-0416.1950.tb01525.x",
    ),
    "mebak-moulds": Source(
        "MEBAK: mycological status of barley, by eye (pinkish red corns point to Fusarium)",
        "read",
        "the published summary",
        address="https://mebak.org/en/suche?tag=malting+wheat",
    ),
    "mebak-moisture": Source(
        "MEBAK: barley under 14 %, better under 12 % to store",
        "read",
        "a published summary",
        address="https://mebak.org/en/",
    ),
    "hellevang-2009": Source(
        "Hellevang, K., North Dakota State University, 12 October 2009: malting barley of 14 %, by its germination, "
        "about 70 days at 80 °F, 175 at 70 °F, 430 at 60 °F; about twice as long for each 10 °F cooler",
        "read",
        address="https://www.ag.ndsu.edu/news/newsreleases/2009/oct-12-2009/cool-stored-wheat-and-barley-check-moisture-content",
    ),
    "hellevang-2019": Source(
        "Hellevang, K., North Dakota State University (2019): germination of barley at 17 % moisture and 21 °C "
        "is lost in about 30 days",
        "in a copy",
        "a news page that reprints the university’s notice",
        "https://farms.com/news/malting-barley-requires-care-when-drying-in-storage-148527.aspx",
    ),
    "oxford-dormancy": Source(
        "Oxford Companion to Beer, dormancy (dried to 11 to 12 %, two weeks at 25 to 30 °C, then under 17 °C)",
        "read",
        address="https://www.beerandbrewing.com/dictionary/ByZoo0Ssq1",
    ),
    "robson-2001": Source(
        "Robson, E. J., Woods, J. L.: Dormancy in stored malting barley, J. Inst. Brew. 107 (2001) "
        "(cooling to 8 °C did not bring dormancy back)",
        "abstract",
        address="https://doi.org/10.1002/j.2050-0416.2001.tb00109.x",
    ),
    "woods-2000": Source(
        "Woods, J. L., McCallum, D. J.: Monitoring a commercial barley store, J. Inst. Brew. 106 (2000) 411",
        "abstract",
    ),
    "cfr-810-205": Source(
        "United States, standards for grain, 7 CFR 810.205 (2017), two-rowed malting barley, grade 1: thin barley 5 %, "
        "skinned and broken 4 %, other grains 2 %, foreign material 0.5 %; not infested",
        "in a copy",
        address="https://www.ecfr.gov/current/title-7/section-810.205",
    ),
    "cfr-810-206": Source(
        "United States, standards for grain, 7 CFR 810.206: barley that is musty, sour, foreign in odour "
        "or heating falls out of the grades",
        "in a copy",
        address="https://www.ecfr.gov/current/title-7/section-810.206",
    ),
    "eu-2023-915": Source(
        "European Union, Regulation 2023/915: ergot at most 0.2 g/kg in unprocessed cereals, barley among them",
        "second-hand",
    ),
    "ahdb-ergot": Source(
        "AHDB: limits for ergot (Great Britain 0.5 g/kg for food; contracts for food grain: none at all)",
        "read",
        "for the law second-hand",
        "https://ahdb.org.uk",
    ),
    "eu-2024-1038": Source(
        "European Union, Regulation 2024/1038: T-2 and HT-2 together at most 200 µg/kg in unprocessed malting barley",
        "read",
        "title and recitals; the table in a copy",
    ),
    "eu-2024-1022": Source(
        "European Union, Regulation 2024/1022: deoxynivalenol, 1,000 µg/kg in unprocessed cereals",
        "second-hand",
        "title and recitals read",
    ),
    "ahdb-lorries": Source(
        "AHDB project 2955 (2003), sampling grain in lorries: more samples a load make the result more reliable; "
        "2, 3, 5 and 8 compared",
        "abstract",
        address="https://ahdb.org.uk/grain-sampling-and-assessment-sampling-grain-in-lorries",
    ),
    "ajib-thesis": Source(
        "Ajib, B.: Contribution à la modélisation de la qualité de l’orge et du malt, thesis, France: at the kiln the "
        "acrospire is about 75 % of the corn’s length",
        "in a copy",
        "its page on the process; the year was not noted",
        "https://theses.fr",
    ),
    "wagner-rootlets": Source(
        "Wagner, on malting: rootlets one and a quarter to one and a half times the corn",
        "not citable",
        "title and year were not noted",
    ),
    "narziss-smell": Source(
        "Narziss, L., on malting: smell of cucumber; sour or fruity, no air; musty, mould",
        "not citable",
        "which of his books was not noted",
    ),
    "wagner-pruss-2002": Source(
        "Wagner, W., Pruss, A.: The IAPWS formulation 1995, J. Phys. Chem. Ref. Data 31 (2002) 387, "
        "auxiliary equations",
        "second-hand",
        "read as coded in a program library",
        address="https://github.com/jedick/CHNOSZ/blob/main/R/util.water.R",
    ),
}
