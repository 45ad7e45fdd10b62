"""Sources on gases: published values for people at work."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "niosh-co": Source(
        "NIOSH 1994: documentation for immediately dangerous concentrations, carbon monoxide (630-08-0): 50 ppm over "
        "8 h in law, 35 ppm over the shift and 200 ppm as a ceiling advised; 1,200 ppm dangerous at once",
        "read",
        "but for the 1,200 ppm, which is second-hand",
        address="https://www.cdc.gov/niosh/idlh/630080.html",
    ),
    "niosh-h2s": Source(
        "NIOSH 1994: documentation for immediately dangerous concentrations, hydrogen sulfide (7783-06-4): ceiling "
        "20 ppm, once 50 ppm for 10 min in law, 10 ppm as a ceiling over 10 min advised; 100 ppm dangerous at once; "
        "170 to 300 ppm the most that was borne for an hour, 400 to 700 ppm: unconscious, and death in half an hour to "
        "an hour",
        "read",
        "but for the 100 ppm, which is second-hand",
        address="https://www.cdc.gov/niosh/idlh/7783064.html",
    ),
    "osha-h2s": Source(
        "OSHA letter of interpretation of 28 Sep 1995: hydrogen sulfide paralyses the sense of smell; "
        "high concentrations can hurt before the smell is noticed",
        "read",
        address="https://www.osha.gov/laws-regs/standardinterpretations/1995-09-28",
    ),
    "scoel-h2s": Source(
        "Scientific Committee on Occupational Exposure Bounds, SUM/124 (2007), hydrogen sulphide: 5 ppm over 8 h, "
        "10 ppm over 15 min; taken over by Commission Directive 2009/161/EU",
        "in a copy",
        "the committee’s paper, first page; the row of the directive was not seen",
    ),
    "niosh-so2": Source(
        "NIOSH 1994: documentation for immediately dangerous concentrations, sulfur dioxide (7446-09-5): 5 ppm over "
        "8 h in law, 2 ppm over the shift and 5 ppm short term advised; 100 ppm dangerous at once; 400 to 500 ppm is "
        "dangerous even for a short time",
        "read",
        "but for the revised 100 ppm, which is second-hand",
        address="https://www.cdc.gov/niosh/idlh/7446095.html",
    ),
    "eu-2017-164": Source(
        "Commission Directive (EU) 2017/164, annex: sulphur dioxide 0.5 ppm (1.3 mg/m³) over 8 h, 1 ppm (2.7 mg/m³) "
        "over 15 min",
        "read",
        "in the list of the European Chemicals Agency",
        address="https://www.echa.europa.eu/web/guest/indicative-oelvs-dir-2017-164",
    ),
    "eu-2004-37": Source(
        "Directive 2004/37/EC as amended by Directive (EU) 2022/431, annex III: carbon monoxide 20 ppm (23 mg/m³) over "
        "8 h, 100 ppm (117 mg/m³) over 15 min",
        "read",
        "in the list of the European Chemicals Agency",
        address="https://echa.europa.eu/carcinogens-mutagens-oels",
    ),
    "eu-2000-39": Source(
        "Commission Directive 2000/39/EC, annex: ammonia 20 ppm (14 mg/m³) over 8 h, 50 ppm (36 mg/m³) over 15 min",
        "second-hand",
        "20 ppm from a table that quotes it; a Dutch official list has the same milligrams; 50 ppm from memory",
    ),
    "niosh-ph3": Source(
        "NIOSH 1994: documentation for immediately dangerous concentrations, phosphine (7803-51-2): 0.3 ppm over 8 h "
        "in law and over the shift advised, 1 ppm short term advised; 50 ppm dangerous at once; sickness, tight "
        "chest, cough, headache and dizziness in people exposed now and then to up to 35 ppm",
        "read",
        address="https://www.cdc.gov/niosh/idlh/7803512.html",
    ),
    "ser-limits": Source(
        "Sociaal-Economische Raad (Netherlands), data bank of limit values: phosphine and chlorine, with the values of "
        "other countries, among them the United Kingdom (EH40: phosphine 0.1 ppm over 8 h, 0.2 ppm over 15 min; "
        "chlorine 0.5 ppm over 15 min)",
        "read",
        address=""
        "https://www.ser.nl/nl/thema/arbeidsomstandigheden/Grenswaarden-gevaarlijke-stoffen/Grenswaarden/fosfine "
        "https://www.ser.nl/nl/thema/arbeidsomstandigheden/Grenswaarden-gevaarlijke-stoffen/Grenswaarden/chloor",
    ),
    "niosh-cl2": Source(
        "NIOSH 1994: documentation for immediately dangerous concentrations, chlorine (7782-50-5): ceiling 1 ppm in "
        "law, 0.5 ppm as a ceiling over 15 min advised; 10 ppm dangerous at once; 30 ppm: fits of coughing; 34 to 51 "
        "ppm killed in 1 to 1.5 h",
        "read",
        address="https://www.cdc.gov/niosh/idlh/7782505.html",
    ),
    "niosh-nh3": Source(
        "NIOSH: documentation for immediately dangerous concentrations, ammonia (7664-41-7): 50 ppm over 8 h in law, "
        "25 ppm over the shift and 35 ppm short term advised; 300 ppm dangerous at once; 2,500 to 6,000 ppm for half "
        "an hour is dangerous to life",
        "in a copy",
        "but for the 300 ppm, which is second-hand",
        address="https://www.cdc.gov/niosh/idlh/7664417.html",
    ),
    "cfr-1910-272": Source(
        "29 CFR 1910.272 (United States), grain handling facilities: what hot work is; fugitive dust; fires and "
        "explosions",
        "in a copy",
        "opening paragraphs; that hot work needs a permit is second-hand",
    ),
    "dust-zones": Source(
        "Directive 1999/92/EC, annex I: zones 20, 21 and 22 for clouds of combustible dust",
        "second-hand",
        "in two works that quote it",
    ),
    "bromate-malting": Source(
        "A trial of gibberellic acid at 0.25 to 3 ppm and potassium bromate at about 100 ppm in malting, on barley of "
        "1960 and before",
        "abstract",
        "in an index of papers that named neither authors nor title",
        "https://scilit.com/publications/e8b025f7541e912be895eff66cd535b5",
    ),
    "cogliano-2005": Source(
        "Cogliano, V. J., and others: Meeting report, summary of IARC monographs on formaldehyde, 2-butoxyethanol and "
        "1-tert-butoxy-2-propanol, Environmental Health Perspectives 113 (2005) 1205 (formaldehyde causes cancer in "
        "people)",
        "abstract",
    ),
}
