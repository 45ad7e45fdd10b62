"""Sources on weights, moistures and steeping."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "magb-malt-facts": Source(
        "Maltsters’ Association of Great Britain: malt facts "
        "(1 t of barley at 12 % gives about 830 kg of malt at 5 %)",
        "read",
    ),
    "irri-drying": Source(
        "International Rice Research Institute, Rice Knowledge Bank: weight of grain after drying",
        "read",
    ),
    "ure-leaching": Source(
        "Ure, A.: Dictionary of Arts, Manufactures and Mines, on malt (1.4 % leached in the steep)",
        "read",
    ),
    "molina-cano-1995": Source(
        "Molina-Cano, J.-L. et al. (1995): J. Inst. Brew. 101(2), 79-83; uptake of four lots, "
        "data published with the CRAN package pbANOVA",
        "read",
        "the data, not the article; steep temperature and first moisture are not stated there",
    ),
    "barley-kinetics-1983": Source(
        "A kinetic study on the hydration process of barley kernels with various polishing yields "
        "(1983), JAKO198303041888549: 11.6 kcal/mol for whole barley at 20 to 60 °C",
        "abstract",
    ),
    "becker-1960": Source("Becker, H. A. (1960): Cereal Chemistry 37, 309; water into wheat", "read"),
    "yin-1996": Source(
        "Yin, X. S. (1996): MBAA Technical Quarterly 33, 236; air rests speed the uptake", "abstract"
    ),
    "crank-1975": Source(
        "Crank, J. (1975): The Mathematics of Diffusion, chapter 6; the sphere",
        "second-hand",
        "its series, from values printed in another project’s documentation",
    ),
    "eu-1272-2009": Source(
        "Regulation (EU) 1272/2009, annex I part VI: moisture of cereals, ground, 5 g, 130 to 133 °C, 2 h",
        "read",
    ),
    "iso-712": Source(
        "ISO 712: Cereals and cereal products, determination of moisture content, reference method",
        "not read",
        "only its scope was read",
    ),
    "mebak-barley-moisture": Source(
        "MEBAK R-110.40.020, after ISO 712:2009: barley over 17 % is dried whole first", "read"
    ),
    "asae-s352": Source(
        "ASAE S352.2, whole grain in the oven, as described by Purdue University: 15 g or more, "
        "100 g above 25 % moisture",
        "second-hand",
    ),
    "iso-5725-6": Source("ISO 5725-6: Accuracy of measurement methods, critical range", "not read"),
}
