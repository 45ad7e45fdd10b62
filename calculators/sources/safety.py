"""Sources on hazards."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "niosh-co2": Source(
        "NIOSH 1994: documentation for immediately dangerous concentrations, carbon dioxide "
        "(124-38-9): 5,000 ppm over 10 h advised, 5,000 ppm over 8 h in law, 30,000 ppm short term "
        "advised, 40,000 ppm dangerous at once; effects at 5, 7–10 and 9 %",
        "read",
        address="http://www.cdc.gov/niosh/idlh/124389.html",
    ),
    "eh40": Source(
        "HSE EH40/2005, Workplace exposure limits (fourth edition 2020): carbon dioxide 5,000 ppm "
        "(9,150 mg/m³) over 8 h, 15,000 ppm (27,400 mg/m³) over 15 min; other gases on the page of gases",
        "second-hand",
        "four works that quote it agree; the printed rows were not seen, and some are from memory",
    ),
    "eu-2006-15": Source(
        "Commission Directive 2006/15/EC, annex: carbon dioxide 5,000 ppm (9,000 mg/m³) over 8 h",
        "second-hand",
        "recitals read: indicative, non-binding, each country sets its own; the row from two data sheets that quote it",
        address="https://www.legislation.gov.uk/eudr/2006/15",
    ),
    "trgs-900": Source(
        "TRGS 900 (Germany): carbon dioxide 5,000 ppm (9,100 mg/m³), short-term factor 2 (II)",
        "second-hand",
        "read in DGUV Information 213-722, section 3.1",
    ),
    "austria-mak": Source(
        "Grenzwerteverordnung (Austria): carbon dioxide 5,000 ppm over the day, 10,000 ppm never to be passed",
        "second-hand",
        "from two data sheets that quote it",
    ),
    "eec-91-322": Source(
        "Commission Directive 91/322/EEC, annex: mg/m³ are at 20 °C and 101.3 kPa",
        "read",
        address="https://www.legislation.gov.uk/eudr/1991/322/annex",
    ),
    "cfr-1910-1000": Source(
        "29 CFR 1910.1000(d)(1) (United States): mean over 8 h and its worked case, 81.25 ppm",
        "in a copy",
        "a reprint of the regulation",
    ),
    "cfr-1910-146": Source(
        "29 CFR 1910.146 (United States), permit-required confined spaces: hazardous under 19.5 or "
        "over 23.5 % oxygen; test oxygen, then flammable, then toxic gases; breaking the plane of the"
        " opening is entry",
        "read",
        "in part; the definition of entry second-hand",
        address="http://edocket.access.gpo.gov/cfr_2006/julqtr/29cfr1910.146.htm",
    ),
    "mmwr-s3-1": Source(
        "Centers for Disease Control and Prevention 1994, MMWR 43 (RR-13), Table S3-1: air changes "
        "and minutes for removal of 90, 99 and 99.9 %; mixing factor up to 10",
        "in a copy",
        "the printed page, every cell",
    ),
    "niosh-94-110": Source(
        "Waters, Putz-Anderson and Garg, Applications manual for the revised NIOSH lifting equation, "
        "DHHS (NIOSH) 94-110, revised 2021",
        "second-hand",
        "from a typed copy checked twice, with page numbers; title pages read",
        address="https://doi.org/10.26616/NIOSHPUB94110revised092021",
    ),
    "hse-l23": Source(
        "HSE L23, Manual handling, third edition 2004: appendix 3 (guideline filter, pace, carrying), paragraph 120 "
        "(teams), paragraph 202 (who is especially at risk)",
        "in a copy",
        "pace, teams and paragraph 202; second-hand the weights, which stand in a drawing, and the 10 m of carrying",
        address="https://www.hse.gov.uk/pubns/books/l23.htm",
    ),
    "hse-filter": Source(
        "HSE, Simple manual handling risk filters: the guidelines are not “safe limits”",
        "read",
        address="https://www.hse.gov.uk/msd/manual-handling-risk-filters.htm",
    ),
    "hse-mac": Source(
        "HSE, Manual handling assessment charts: expert scores for carrying (a load held in one hand scores red; 4 to "
        "10 m and things in the way score amber)",
        "read",
        address="https://www.hse.gov.uk/msd/mac/expert02a.htm",
    ),
    "hse-indg143": Source(
        "HSE INDG143, Getting to grips with manual handling: twisting, pushing and pulling",
        "second-hand",
        "in copies of an older edition",
        "https://www.hse.gov.uk/pubns/indg143.htm",
    ),
    "ccohs-shovelling": Source(
        "Canadian Centre for Occupational Health and Safety: Shovelling",
        "second-hand",
        "in two pages that copy it; the height of throw is from memory",
        "https://www.ccohs.ca",
    ),
    "hse-handover": Source(
        "HSE, Human factors: shift handover (prepare, communicate, cross-check; face to face, two-way, spoken and "
        "written)",
        "read",
        "an excerpt that breaks off near its end",
        address="https://www.hse.gov.uk/humanfactors/topics/shift-handover.htm",
    ),
    "hse-indg140": Source(
        "HSE INDG140, Grain dust in non-agricultural workplaces: asthma, health surveillance",
        "read",
        address="http://www.hse.gov.uk/pubns/indg140.htm",
    ),
    "hse-rr829": Source(
        "HSE RR829, Control of tasks with high exposure to grain dust: limit 10 mg/m³; some cleaning passes it",
        "read",
        "summary",
        address="https://www.hse.gov.uk/research/rrhtm/rr829.htm",
    ),
    "hse-eh66": Source(
        "HSE EH66, Grain dust, third edition",
        "in a copy",
        "opening pages",
        "https://www.hse.gov.uk/pubns/books/eh66.htm",
    ),
    "extension-grain-dust": Source(
        "Jones, C., Oklahoma State University Extension: Preventing grain dust explosions",
        "read",
        "opening",
        address="https://nasdonline.org/7189/d002435/preventing-grain-dust-explosions.html",
    ),
    "blyth-1977": Source(
        "Blyth, W. and others 1977, Clinical Allergy 7: fungal antigens and respiratory disease in "
        "Scottish maltworkers (5.2 % with symptoms; 56 maltings, 711 men)",
        "abstract",
        address="https://doi.org/10.1111/j.1365-2222.1977.tb01485.x",
    ),
    "riddle-1968": Source(
        "Riddle, H. F. V. and others 1968, Thorax 23: 271, allergic alveolitis in a maltworker",
        "abstract",
        address="http://thorax.bmj.com/content/23/3/271",
    ),
    "wac-296-99": Source(
        "Washington Administrative Code 296-99-040: walking down grain is prohibited; harness, lockout",
        "read",
        address="https://www.law.cornell.edu/regulations/washington/WAC-296-99-040",
    ),
    "osha-grain": Source(
        "OSHA hazard alert on grain bins: moving grain, bridged grain, grain on the walls; an observer outside",
        "second-hand",
        "in a notice that reports it",
        "https://www.osha.gov",
    ),
    "flowing-grain-seconds": Source(
        "Penn State Extension, Hazards of flowing grain: trapped in about 5 seconds, buried in about "
        "25, with an auger of 85 ft³ a minute",
        "second-hand",
        "in two works that quote it; a third says 22 seconds",
        "https://extension.psu.edu",
    ),
    "cfr-1910-147": Source(
        "29 CFR 1910.147(d) (United States): shut down, isolate, lock and tag, release stored energy, verify",
        "in a copy",
        "a reprint of the regulation",
    ),
    "phosphide-water": Source(
        "Loss prevention notices on aluminium phosphide in cargo holds: moisture frees phosphine; it "
        "may catch fire by itself; unspent tablets go on",
        "second-hand",
        "in a trade page that reports it",
        address="https://mfame.guru/fires-and-explosions-from-aluminium-phosphide-fumigation/",
    ),
    "grdc-phosphine": Source(
        "Grains Research and Development Corporation (Australia), Venting after phosphine fumigation:"
        " grain lets go of phosphine for days; lorry loads of 32, 82 and 440 ppm were met",
        "read",
        address="https://grdc.com.au/resources-and-publications/grdc-update-papers/tab-content/grdc-update-papers/2017/07/venting-after-phosphine-fumigation",
    ),
    "phosphine-fr": Source(
        "Code du travail (France), article R4412-149: phosphine 0.1 ppm (0.14 mg/m³) over 8 h",
        "in a copy",
        "an earlier version, in a public copy of the codes of law",
    ),
    "noise-2005": Source(
        "Control of Noise at Work Regulations 2005 (Great Britain), reg. 4: action at 80 and 85 dB(A), limit 87",
        "second-hand",
        "read in quotation",
        "https://www.legislation.gov.uk/uksi/2005/1643",
    ),
    "hse-leptospirosis": Source(
        "University of Warwick, after HSE INDG84: leptospirosis (Weil’s disease)",
        "read",
        "a page that rests on the leaflet",
        address="https://warwick.ac.uk/services/healthsafetywellbeing/guidance/premises_grounds/groundsandgardens/leptospirosis/",
    ),
    "legionella-range": Source(
        "Eden District Council (England): Legionella in hot and cold water systems (thrives at 20 to 45 °C; caught by "
        "breathing droplets, as of sprays and misting; pneumonia that can kill)",
        "read",
        "HSE L8 was not read",
        "https://www.eden.gov.uk/business-and-trade/food-hygiene-and-health/food-hygiene-and-safety-guidance/"
        "legionella-in-hot-and-cold-water-systems/",
    ),
    "hse-reversing": Source(
        "HSE press page on workplace transport: on average 21 people a year killed by moving vehicles",
        "read",
        address="https://press.hse.gov.uk/tag/workplace-transport",
    ),
    "hse-tipping": Source(
        "HSE, Workplace transport: tipping (level, firm ground, nothing above; cab and trailer in line; tailgate "
        "released first; nobody behind; controlled from the cab where possible; the driver never leaves, doors shut)",
        "read",
        address="https://www.hse.gov.uk/workplacetransport/information/tipping.htm",
    ),
    "exhaust-and-dust": Source(
        "Williamson, M., in a series of talks on dust safety: control of dust in bays where grain lorries are loaded "
        "(a running engine and its exhaust, up to 1,200 °F, light a cloud; never leave it running while loading)",
        "read",
        "of loading, where no engine drives a ram",
        "https://dustsafetyscience.com/dust-hazard-control-grain-truck-load-out-bays-matt-williamson",
    ),
    "drier-fires": Source(
        "Dorset & Wiltshire Fire and Rescue Service: grain dryers (serviced by a competent engineer; cut-outs checked; "
        "dust and chaff away; not left unattended; grain cooled before storage)",
        "read",
        address="https://dwfire.org.uk/business-fire-safety/fire-safety-and-the-law/fire-risks-on-farms/grain-dryers",
    ),
    "drier-cut-outs": Source(
        "29 CFR 1910.272(p) (United States), grain dryers: fuel shuts off by itself when flame, power or the exhaust "
        "fan fails; feed stops when the exhaust is too hot",
        "second-hand",
        "in a trade article that reports it",
        "https://www.ecfr.gov/current/title-29/section-1910.272",
    ),
    "hse-lone": Source(
        "HSE INDG73, Working alone",
        "second-hand",
        "an older edition in a copy",
        "https://www.hse.gov.uk/pubns/indg73.htm",
    ),
    "ansi-z535": Source(
        "ANSI Z535.4-2007, product safety signs: the four signal words",
        "second-hand",
        "read in quotation",
    ),
}
