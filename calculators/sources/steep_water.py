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
}
