"""Sources on the water, the air and the room of a steep."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "modares-23-10966": Source(
        "Modares, article 23-10966: barley at 42.17 % moisture, bulk 613.68 and true density 1245.72 kg/m³", "read"
    ),
    "earle-specific-heat": Source(
        "Earle, R. L.: Unit Operations in Food Processing, appendix 7: specific heat of a foodstuff "
        "4.19 p/100 + 0.84 (100 − p)/100 kJ/kg K with p % of water; called a considerable simplification there",
        "read",
        address="https://www.nzifst.org.nz/resources/unitoperations/",
    ),
    "kim-chang-1980": Source(
        "Kim, M. S., Chang, K. S. (1980): Study on the specific heat of rough rice and barley, "
        "JAKO198019959262908: covered barley 1.886 to 2.563 kJ/kg K",
        "abstract",
        "the moistures are not in it",
    ),
    "bakers-dictionary": Source(
        "Baking Business, bakers’ dictionary: heat of hydration (flour with 11 to 12 % of moisture, 6.5 Btu/lb on "
        "average, 15.1 kJ/kg)",
        "read",
        address="http://www.bakingbusiness.com/resources/bakers-dictionary/dictionary/h/heat-of-hydration.aspx",
    ),
    "cengel-boles": Source(
        "Çengel, Y. A., Boles, M. A.: Thermodynamics, an Engineering Approach, 8th edition, problem 5-157: heat of "
        "hydration of dough 15 kJ/kg, which makes 22.5 on its flour",
        "in a copy",
        "the problem as quoted; what its kilogram is of is our reading",
    ),
    "daniels-1920": Source(
        "The Heat of Hydration and Specific Heat of Wheat Flour, J. Ind. Eng. Chem. 12 (1920) 760: the measurement to "
        "look for",
        "not read",
        "only its title was seen; author and year from memory",
    ),
    "apha-oxygen": Source(
        "American Public Health Association: Standard Methods, 4500-O; equation for oxygen in water at 1 atm "
        "(as printed in the documentation of a river model)",
        "second-hand",
        "the law for other pressures is from memory, checked against a printed table",
    ),
    "en-25814": Source("EN 25814: oxygen in water at 10 °C, 11.3 mg/L", "read", "this value"),
    "oxygen-pressure-table": Source(
        "Table of oxygen in water from 0 to 23 °C and 775 to 625 mm of mercury, in the manual of a field instrument",
        "not citable",
        "the manual was not noted; it calls the table an approximation",
    ),
    "oxygen-uptake-textbook": Source(
        "A textbook of cereals, p. 221: oxygen taken from the water about 1 mg/kg h in the first steep, ten times "
        "that by the third",
        "not citable",
        "its title was not noted; low against the heat that grain gives off later",
    ),
    "barometric-formula": Source(
        "International Standard Atmosphere (ISO 2533): pressure by height, 101325 Pa × (1 − 2.25577e-5 h)^5.2559",
        "second-hand",
        "as psychrolib computes it after ASHRAE",
    ),
    "steep-load-notes": Source(
        "Notes for the design of a brewery’s waste water plant (in Chinese): a tonne of barley steeped gives about 10 "
        "to 12 kg of COD, or 5 to 6 kg of BOD5",
        "read",
        "no author, and not said who measured it",
        "http://huanbao.civilcn.com/bysj/1410428042702476.html",
    ),
    "steep-water-project": Source(
        "Deutsche Bundesstiftung Umwelt, project 13827/01: steep water cleaned and used again (1.8 to 2.5 m³ of waste "
        "water for a tonne of barley, nearly all of it from the steep)",
        "read",
        "the project’s summary; what it found is not in the part that was seen",
        "https://www.dbu.de/projekt_13827/01_db_2409.html",
    ),
    "steep-water-institute": Source(
        "Boivin, P.: a process to use steep water again, project of the French institute of malting (3 to 5 m³ of "
        "water for a tonne of barley)",
        "read",
        "the summary of the article",
        "https://revue-iaa.fr/?p=5067",
    ),
    "steep-water-1998": Source(
        "Gunkel, J.: organic and microbial load of steep water, Monatsschrift für Brauwissenschaft 51 (1998) 57 (two "
        "thirds of used water in the first steep: more moulds on the steeped corns and a dirtier drain, none of it "
        "seen on the kilned malt of model steeps; warm and long storage loads the water more; COD to BOD hardly moves)",
        "abstract",
        address="http://www.brewingscience.de/index.php?tpl=table_of_contents&year=1998&edition=0005%252F0006&article=59878",
    ),
    "steep-water-recycled": Source(
        "Březinová Belcredi, N., and others: germination of malting barley when using recycled steep-out water, "
        "Kvasny prumysl (ten varieties, three sites: rate 22.8 % lower than in distilled water, index 10.9 %, energy "
        "2.4 %; some varieties suffer three times as much as others)",
        "abstract",
        address="https://kvasnyprumysl.eu/index.php/kp/article/view/270",
    ),
    "brewery-guideline": Source(
        "Multilateral Investment Guarantee Agency: environmental guidelines for breweries (untreated: BOD5 1,000 to "
        "1,500 mg/L, COD 1,800 to 3,000 mg/L)",
        "in a copy",
        "of breweries, not of maltings",
        "https://www.miga.org",
    ),
    "direct-dischargers": Source(
        "Brauwelt: Brauereien als Direkteinleiter (a brewery’s whole water: BOD5 to COD 1 to 1.5 to 1 to 1.8)",
        "read",
        "of breweries, not of maltings",
        "https://brauwelt.com/de/themen/recht/610200-brauereien-als-direkteinleiter",
    ),
    "malt-works-standard": Source(
        "Discharge limits for works that make malt, of one country (China), as an encyclopaedia prints them: to a "
        "sewer "
        "COD 500, BOD5 300, solids 400 mg/L; to a water COD 80, BOD5 20, solids 70 mg/L",
        "second-hand",
        "the standard’s number is not on the page; from memory it is GB 19821",
        "https://www.newton.com.tw/wiki/%E5%95%A4%E9%85%92%E5%BB%A0%E5%BB%A2%E6%B0%B4/6013924",
    ),
    "eu-91-271": Source(
        "Directive 91/271/EEC on urban waste water, article 2: one population equivalent is a BOD5 of 60 g of oxygen a "
        "day",
        "second-hand",
        "read in a wiki on coasts that quotes it",
        "https://eur-lex.europa.eu/eli/dir/1991/271/oj",
    ),
    "hypochlorite-sorghum": Source(
        "Tesfaendrias, M. T., and others: grain mould fungi on sorghum malt, S. Afr. J. Plant Soil 26 (2009) 45 "
        "(hypochlorite in the steep: germination and roots suffered above 0.43 %)",
        "abstract",
        "of sorghum, not of barley",
        "https://www.nisc.co.za/products/abstracts/2407/the-effect-of-grain-mould-fungi-on-sorghum-malt-quality-and-its-management-during-malting",
    ),
}
