"""Sources on moisture by weighing and by the oven."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "magb-malt-facts": Source(
        "Maltsters’ Association of Great Britain: malt facts "
        "(1 t of barley at 12 % gives about 830 kg of malt at 5 %; around 4 m³ of water a tonne of malt)",
        "read",
        address="https://www.ukmalt.com/uk-malting-industry/how-malt-is-made/malt-facts/",
    ),
    "irri-drying": Source(
        "International Rice Research Institute, Rice Knowledge Bank: weight of grain after drying",
        "read",
        address="http://www.knowledgebank.irri.org",
    ),
    "eu-1272-2009": Source(
        "Regulation (EU) 1272/2009, annex I part VI: moisture of cereals, ground, 5 g, 130 to 133 °C, 2 h",
        "read",
    ),
    "iso-712": Source(
        "ISO 712: Cereals and cereal products, determination of moisture content, reference method "
        "(130 to 133 °C; at most 0.3 g on a square centimetre)",
        "in a copy",
        "an earlier edition, in part; of the editions of 2009 and 2024 only the scope",
    ),
    "mebak-barley-moisture": Source(
        "MEBAK R-110.40.020 (2016), after ISO 712:2009: moisture content in barley, drying oven "
        "(over 17 % dried whole first; not for malt)",
        "read",
        "the published summary",
        "https://www.mebak.org/en/methode/r-110-40-020/moisture-content-in-barley-drying-oven-method/2572",
    ),
    "icc-110": Source(
        "ICC Standard 110/1: moisture of cereals (unsatisfactory for brewing barley, by its own words)",
        "read",
        "the published summary",
        "https://www.icc.or.at/publications/icc-standards/standards-overview/110-1-standard-method",
    ),
    "asae-s352": Source(
        "ASAE S352.2, Unground grain and seeds, as taught at Purdue University: dishes dried an hour, 15 g or more, "
        "100 g above 25 % moisture, lids, desiccator",
        "in a copy",
        "its table of hours and temperatures was not read",
        "https://engineering.purdue.edu/~abe305/moisture/html/page22.htm",
    ),
    "aacc-44-15": Source(
        "AACC International 44-15, Moisture: air-oven (dishes and covers with the same number, dried an hour "
        "at 130 °C, airtight desiccator)",
        "in a copy",
        "the first page",
        "http://methods.aaccnet.org",
    ),
    "ista": Source(
        "International Rules for Seed Testing, ch. 9, as taught: over 17 % dry first; two portions of 50 g; "
        "25 % and more at 70 °C for 2 to 5 h",
        "in a copy",
        address="https://www.seedtest.org",
    ),
    "mebak-infrared": Source(
        "MEBAK R-110.40.022 (2016): moisture content in barley, infrared drying (a balance that heats; settings found "
        "by trial)",
        "read",
        "the published summary",
        "https://www.mebak.org/en/methode/r-110-40-022/wassergehalt-von-gerste-infrarot-trocknung/1947",
    ),
    "mebak-microwave": Source(
        "MEBAK, rapid methods for the moisture of barley: microwave and microwave-vacuum drying, the change of weight "
        "followed to a constant one",
        "read",
        "the published summary, without its number",
        "https://mebak.org/en/suche?tag=moisture",
    ),
    "rice-microwave-2019": Source(
        "Comparison of microwave drying and oven-drying techniques for moisture determination of three paddy "
        "(Oryza sativa L.) varieties. Chemical and Biological Technologies in Agriculture 2019",
        "abstract",
        address="https://doi.org/10.1186/s40538-019-0164-1",
    ),
    "wheat-microwave": Source(
        "Evaluation of calibration of moisture meter for Indian wheat by microwave oven drying technique and "
        "commercial "
        "moisture meter (10 to 20 minutes against 18 to 20 hours; no significant difference)",
        "not citable",
        "the abstract was read; journal and year were not noted",
    ),
    "uaf-microwave": Source(
        "University of Alaska Fairbanks, Cooperative Extension FGV-00248 (2020): microwave test for forage moisture",
        "read",
        address="https://uaf.edu/ces/publications/database/gardening/microwave-test-forage.php",
    ),
    "unl-microwave": Source(
        "University of Nebraska-Lincoln, CropWatch 2012: using a microwave oven to test moisture content of forage",
        "read",
        "its beginning",
        "https://cropwatch.unl.edu/using-microwave-oven-test-moisture-content-forage-unl-cropwatch-aug-9-2012",
    ),
    "deming-notes": Source(
        "Therneau: Total least squares: Deming, Theil-Sen and Passing-Bablok regression, notes with the R package "
        "deming "
        "(why least squares of one on the other is wrong when both err)",
        "read",
        "its beginning; the formula of the slope is from memory and was checked against another way of fitting",
        "https://cran.r-project.org/package=deming",
    ),
    "iso-5725-6": Source("ISO 5725-6: Accuracy of measurement methods, critical range", "not read"),
}
