"""Sources on gas, vessels and rescue."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "hse-co2": Source(
        "HSE, General hazards of carbon dioxide (no colour, no smell; deaths in tanks, sumps and cellars; COSHH)",
        "read",
        address="http://www.hse.gov.uk/carboncapture/carbondioxide.htm",
    ),
    "permentier-2017": Source(
        "Permentier, K., and others: Carbon dioxide poisoning: a literature review, Int. J. Emerg. Med. 10 (2017) 14 "
        "(1.5 times as heavy as air; poison as well as asphyxiant; oxygen as treatment)",
        "read",
        "opening pages",
        "https://pmc.ncbi.nlm.nih.gov/articles/PMC5380556",
    ),
    "niosh-86-110": Source(
        "NIOSH 86-110, Preventing occupational fatalities in confined spaces (1986) (more than 60 % were would-be "
        "rescuers)",
        "read",
        address="https://www.cdc.gov/niosh/docs/86-110/default.html",
    ),
    "suruda-1994": Source(
        "Suruda, A. J., and others: Deadly rescue, J. Hazard. Mater. 36 (1994) 45–53 (about 25 % of 903; 35 of 97 "
        "investigated)",
        "abstract",
        address="https://www.cdc.gov/niosh/nioshtic-2/00218619.html",
    ),
    "selman-2018": Source(
        "Selman, J., and others: Safety Science 109 (2018) 333–343 (no more than 17 %)",
        "abstract",
        address="https://www.sciencedirect.com/science/article/pii/S0925753517319574",
    ),
    "winery-2002": Source(
        "Case of 2002, told in Orchard & Vine by the safety authority of British Columbia, and in its alert "
        "(leaning over a hatch; the second death)",
        "read",
        address="https://orchardandvine.net/opinions/safety/confined-space-hazards-a-serious-risk-to-winemakers/ "
        "http://www2.worksafebc.com/i/posters/2002/aa_confinedspace.htm",
    ),
    "silo-2002": Source(
        "NIOSH state FACE report 02MI143 (2002) (those outside stayed outside)",
        "read",
        "the summary",
        "http://www.cdc.gov/niosh/face/stateface/mi/02mi143.html",
    ),
    "csr-1997": Source(
        "Confined Spaces Regulations 1997 (Great Britain), reg. 5: no entry before rescue is arranged",
        "second-hand",
        "regulation 5 in quotation",
        "https://www.legislation.gov.uk/uksi/1997/1713",
    ),
    "l101": Source(
        "HSE L101, Safe work in confined spaces, 3rd edition (2014), code of practice to the regulations of 1997",
        "in a copy",
        "opening pages",
        "https://www.hse.gov.uk/pubns/books/l101.htm",
    ),
    "indg258": Source(
        "HSE INDG258 (rev. 1, 2013), Confined spaces: a brief guide (vats and open-topped chambers count; those killed "
        "include rescuers)",
        "in a copy",
        "opening pages",
        "https://www.hse.gov.uk/pubns/indg258.htm",
    ),
    "wac-296-307": Source(
        "Washington Administrative Code 296-307-64404: wording of the sign; locks and bolted covers",
        "read",
        address="https://lawfilesext.leg.wa.gov/Law/WACArchive/2019/htm/WAC%20296%20%20TITLE/WAC%20296%20-307%20%20CHAPTER/WAC%20296%20-307%20-64404.htm",
    ),
    "forced-air-2005": Source(
        "OSHA, letter of interpretation of 17 Nov 2005 on 29 CFR 1910.146(c)(5)(ii)(E): forced air for people "
        "comes from a clean source and goes on until all have left the space",
        "read",
        "the first answer",
        "https://www.osha.gov/pls/oshaweb/owadisp.show_document?p_table=INTERPRETATIONS&p_id=25169",
    ),
    "lifesaving-six-steps": Source(
        "Royal Life Saving Society UK: six steps to saving a life without risking your own (call before anything else, "
        "do not go in), told by a local group of a lifeboat institution",
        "read",
        "the opening steps",
        "https://thanetrnlicommunitysafety.org.uk/tag/throw-bags/",
    ),
    "fire-service-water": Source(
        "Avon Fire and Rescue Service: water safety (call, never enter the water, lifebelt or throw bag, reach lying "
        "down, do not lean over; a doctor always)",
        "read",
        address="https://avonfire.gov.uk/safety-advice/water-safety",
    ),
    "cfr-1926-106": Source(
        "29 CFR 1926.106 (United States), working over or near water: ring buoys with at least 90 feet of line within "
        "reach",
        "read",
        "a rule for building work",
        "https://www.osha.gov/pls/oshaweb/owadisp.show_document?p_id=10669&p_table=STANDARDS",
    ),
    "aerated-tank-rescue": Source(
        "Gordon, J.: letter in New Scientist, 20 Oct 2001 (training in sewage works: one sinks in an aerated tank, "
        "and shutting off the air is part of a rescue)",
        "read",
        "a letter; no measurement was read",
        "https://www.newscientist.com/letter/mg17223136-700-letter/",
    ),
}
