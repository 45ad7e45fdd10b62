"""Sources on steeping."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "britannica-young": Source(
        "Young, T. W.: Beer, steeping, Encyclopædia Britannica (12–15 °C, 40–50 h, about 45 %, volume +25 %)",
        "read",
        address="http://www.britannica.com/EBchecked/topic/58378/beer/66620/Steeping",
    ),
    "oxford-companion": Source(
        "The Oxford Companion to Beer, steeping (15–20 °C, 2–4 immersions, 43–47 %; air while wet, "
        "carbon dioxide drawn off while dry)",
        "read",
        address="http://beerandbrewing.com/dictionary/6blYZkLoH2/",
    ),
    "cmbtc": Source(
        "Canadian Malting Barley Technical Centre, technical guide, ch. 4, pp. 26–28 (a plan of three immersions "
        "with its moistures; chit above 80 %; too much suction dries the top)",
        "in a copy",
        "these pages",
        "https://cmbtc.com",
    ),
    "french-1990": Source(
        "French, B. J., McRuer, G. R.: Malt quality as affected by various steep aeration regimes, "
        "MBAA Technical Quarterly 27 (1990) 10–14 (four ways of aeration, no clear difference; cages hung deeper "
        "modify further)",
        "abstract",
        address="http://tq.mbaa.com/Abstracts/1990/tq90ab03.htm",
    ),
    "aeration-maturity": Source(
        "Barley maturity and the effects of steep aeration on malting (air in the water: little for ripe barley "
        "with rests, some for water-sensitive barley)",
        "abstract",
        "journal and authors are not noted there",
        "https://scilit.com/publications/16c96b355df56480cba5f91e60290758",
    ),
    "briggs-1987": Source(
        "Briggs, D. E.: Accelerating malting: a review, J. Am. Soc. Brew. Chem. 45 (1987) 1 "
        "(air rests allow slightly warmer steeping)",
        "abstract",
        address="https://www.asbcnet.org/publications/journal/vol/Abstracts/45-01.htm",
    ),
    "haley-1987": Source(
        "Haley, P. E., Stokes, C. H.: Practical plant studies on barley respiration during the steeping process, "
        "MBAA Technical Quarterly 24 (1987) 33–37 (air at least 25 ft³/min and suction at least 100 ft³/min per "
        "1,000 bushels; at most 62 °F in the steep, 65 °F at the end)",
        "abstract",
        "converted with 48 lb a bushel",
        "https://mbaa.com/publications/tq/tqPastIssues/1987/Abstracts/tq87ab01.htm",
    ),
    "wilhelmson-2006": Source(
        "Wilhelmson, A., and others: Oxygen deficiency in barley grain during malting, J. Agric. Food Chem. 54 (2006) "
        "409–416 (short of oxygen in all steeping conditions tried; air matters more as the process goes on)",
        "abstract",
        address="https://cris.vtt.fi/en/publications/oxygen-deficiency-in-barley-ihordeum-vulgarei-grain-during-maltin",
    ),
    "narziss-1966": Source(
        "Narziss, L.: on German malting, J. Inst. Brew. 72 (1966) 15 (life at about 30 %, even growth from 38 %, "
        "43–48 % for modification; a germination of seven days, eight or nine before, dark malts longer)",
        "in a copy",
        "passages quoted",
        "https://onlinelibrary.wiley.com/toc/20500416/1966/72/1",
    ),
    "studies-xxii-1964": Source(
        "Studies in barley and malt XXII: elevated temperatures during multiple steeping, J. Inst. Brew. 70 (1964) "
        "145–155 (water sensitivity brought on by a warm first steep; least moistures of 32 and 38 % after it, "
        "by variety)",
        "abstract",
        address="https://doi.org/10.1002/j.2050-0416.1964.tb01978.x",
    ),
    "molina-cano-1995": Source(
        "Molina-Cano, J.-L., and others: J. Inst. Brew. 101 (1995) 79–83; uptake of eight lots, "
        "one variety and a mutant of it at two sites in two years, "
        "data published with the CRAN package pbANOVA",
        "read",
        "the data, not the article; steep temperature and first moisture are not stated there",
    ),
    "barley-kinetics-1983": Source(
        "A kinetic study on the hydration process of barley kernels with various polishing yields "
        "(1983), JAKO198303041888549: 11.6 kcal/mol for whole barley at 20 to 60 °C",
        "abstract",
    ),
    "becker-1960": Source(
        "Becker, H. A.: Cereal Chemistry 37 (1960) 309; water into wheat (the coats take up about 0.045 kg/kg dry "
        "at once; effect of temperature)",
        "read",
    ),
    "yin-1996": Source("Yin, X. S.: MBAA Technical Quarterly 33 (1996) 236; air rests speed the uptake", "abstract"),
    "crank-1975": Source(
        "Crank, J.: The Mathematics of Diffusion (1975), chapter 6; the sphere",
        "second-hand",
        "its series, from values printed in another project’s documentation",
    ),
    "britannica-14": Source(
        "Malt, Encyclopædia Britannica, 14th edition (1929), vol. 14 (water first, then barley; sound corns sink, "
        "light ones are skimmed; near 55 °F, not above 60 °F; winter water near freezing)",
        "in a copy",
    ),
    "britannica-9": Source(
        "Brewing, Encyclopædia Britannica, 9th edition, vol. 4 (the water is drained in about half an hour)",
        "read",
        address="https://en.m.wikisource.org/wiki/Page:Encyclop%C3%A6dia_Britannica,_Ninth_Edition,_v._4.djvu/312",
    ),
    "country-brewer": Source(
        "The London and Country Brewer (1736): water 4 to 6 inches above the barley; thirty hours in the "
        "couch, then turned every four, six or eight hours",
        "in a copy",
    ),
    "coppinger-1815": Source(
        "Coppinger, J.: The American Practical Brewer and Tanner (1815): 2 to 3 inches of water, skim at each water; "
        "piece at 8 inches, later 4 to 5, turned three or four times a day; watered when roots wither, 54 gallons "
        "for 60 bushels, two thirds on top, a third after turning; the finished kernel marks like soft chalk",
        "in a copy",
        address="https://www.gutenberg.org/ebooks/20663",
    ),
    "ure": Source(
        "Ure, A.: A Dictionary of Arts, Manufactures and Mines (1839), on beer and malt (the husk loses a seventieth,"
        " 1.4 %; milky juice means over-steeped; sour steep water in warm weather)",
        "in a copy",
    ),
    "balling": Source(
        "Balling, C.: on malting (19th century): over-steeped corn is spread thin and turned often; turning cannot be "
        "fixed by the clock; the heap never over 20 to 22 °R (25 to 27.5 °C)",
        "not citable",
        "old text in German; which of his books was not noted",
    ),
    "sommer-1977": Source(
        "Sommer, G.: Reduced effluent steeping, J. Am. Soc. Brew. Chem. 35 (1977) 9 (steep water used again "
        "delays germination; sprayed on the bed: wort a little darker, slower lautering, the rest almost the same)",
        "abstract",
        address="https://www.asbcnet.org/publications/journal/vol/Abstracts/35-02.htm",
    ),
    "davies-2022": Source(
        "Davies, N.: Water use in malting, MBAA Technical Quarterly 59 (2022) (what holds germination back in "
        "used water)",
        "abstract",
        address="https://www.mbaa.com/publications/tq/tqPastIssues/2022/Pages/TQ-59-4-0512-01.aspx",
    ),
    "maltsters-niceties": Source(
        "Niceties in Malting, in a book of instructions of about 1838 (steep water left too long grows slimy and "
        "sometimes sour; change it when it feels oily, smells or tastes so; river water best, hard spring water worst)",
        "in a copy",
        address="http://home.teleport.com/~tcl/bm.htm",
    ),
    "isaac-1973": Source(
        "Isaac, P. C. G., Anderson, G. K.: Effluents from malting and brewing, J. Inst. Brew. 79 (1973)",
        "not read",
        "further reading; the first page was seen, nothing here rests on it",
    ),
    "brookes-1976": Source(
        "Brookes, P. A., Lovett, D. A., MacWilliam, I. C.: The steeping of barley, J. Inst. Brew. 82 (1976) 14–26",
        "not read",
        "further reading; the first lines were seen, nothing here rests on it",
    ),
}
