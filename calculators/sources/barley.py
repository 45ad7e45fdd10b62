"""Sources on the corn itself: how it is built, how it takes water and opens, and what maltsters want of it."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "betts-2017": Source(
        "Betts, N. S., and others: Morphology, carbohydrate distribution, gene expression, and enzymatic activities "
        "related to cell wall hydrolysis in four barley varieties during simulated malting, Front. Plant Sci. 8 (2017) "
        "1872 (enzymes of walls and starch, wall left over in feed barley, the lining of the scutellum)",
        "abstract",
        address="https://doi.org/10.3389/fpls.2017.01872",
    ),
    "patterns-1983": Source(
        "Briggs, D. E., Macdonald, J.: Patterns of modification in malting barley, J. Inst. Brew. 89 (1983) 260 (the "
        "enzymes come from the scutellum first, later more from the aleurone; from both ends only rarely)",
        "abstract",
        address="https://doi.org/10.1002/j.2050-0416.1983.tb04184.x",
    ),
    "palmer-chapter": Source(
        "Palmer, G. H.: Barley and malt, chapter of a handbook of brewing (parts of the corn; aleurone two to three "
        "cells deep; protein 30 to 35 % in the germ, 10 to 12 % in the endosperm)",
        "abstract",
        address="https://www.taylorfrancis.com/chapters/edit/10.1201/9781351228336-5/barley-malt-geoff-palmer",
    ),
    "grain-parts": Source(
        "Botanic Gardens of South Australia, It’s all in the grain (2014): husk 7 to 13 %, endosperm 70 to 80 %, germ "
        "2 to 5 % of the corn, after a state guide to barley of 2010",
        "second-hand",
        address="https://www.botanicgardens.sa.gov.au/articles/140415-barley-blog",
    ),
    "wall-glucan": Source(
        "A page on the barley corn (no author shown): dead cells packed with starch and protein, walls with 70 % of "
        "beta-glucan and 15 % of arabinoxylan, a living aleurone layer around them",
        "not citable",
        "a text kept on a page of translations; its author and title were not noted there",
    ),
    "mcgee-malting": Source(
        "McGee, H.: On Food and Cooking, 2nd edition, on malting and kilning (the germ’s hormone wakes the aleurone; "
        "walls weakened when the growing tip has come to the end; pale malt dried gently up to about 80 °C)",
        "in a copy",
        "passages; the pages were not noted, the edition is from memory",
    ),
    "yin-1996-size": Source(
        "Yin, X. S., and others: NMR imaging of water uptake and diffusion in barley, MBAA Technical Quarterly 33 "
        "(1996) 236 (water first in the region of the scutellum, then a lag; larger corns end drier; protein counts "
        "slightly)",
        "abstract",
        address="https://mbaa.com/publications/tq/tqPastIssues/1996/Abstracts/tq96ab32.htm",
    ),
    "corn-ends": Source(
        "A page in Polish on how corns take up water (no author shown): 39 % in the upper part, 38 % in the middle, "
        "47 % at the base during a steep; a whole seed coat lets water in and salts not",
        "read",
        "where the figures were measured is not said",
        "http://www.lncc.ch/procesy/zjawiska-zwiazane-z-wchlanianiem-wody-przez-ziarno",
    ),
    "dark-field-2017": Source(
        "Nielsen, M. S., Damkjær, K. B., Feidenhans’l, R.: Quantitative in-situ monitoring of germinating barley seeds "
        "using X-ray dark-field radiography (2017) (a front that moves through the corn)",
        "abstract",
        address="https://arxiv.org/abs/1701.03756",
    ),
    "chandra-1999": Source(
        "Chandra, G. S., Proudlove, M. O., Baxter, E. D.: The structure of barley endosperm: an important determinant "
        "of malt modification, J. Sci. Food Agric. 79 (1999) 37 (steely corns hold more protein in the middle)",
        "abstract",
        address="https://onlinelibrary.wiley.com/journal/10970010",
    ),
    "steely-2010": Source(
        "Constitutive differences between steely and mealy barley samples associated with endosperm modification, J. "
        "Sci. Food Agric. 90 (2010) 2105 (77 % steely corns against 46 %: slower opening, shorter acrospires)",
        "abstract",
        address="https://doi.org/10.1002/jsfa.4058",
    ),
    "hardness-2008": Source(
        "A study of kernel hardness, water uptake and endosperm of barley, J. Cereal Sci. (2008) (hardness against "
        "water taken up: r −0.85 and −0.75 in two harvests; beta-glucan goes with hardness; protein of the endosperm "
        "does not)",
        "abstract",
        "title and authors are not on the page that was read",
        "https://daneshyari.com/en/article/4516657",
    ),
    "peeled-kernels": Source(
        "A study of peeled kernels in malting (few of them grow, growth abnormal, poor opening, mould in the malt)",
        "abstract",
        "title and authors are not on the page that was read",
        "https://scilit.com/publications/75d23c2f390ba0b7ad0d199faf7766f6",
    ),
    "sole-1994": Source(
        "Sole, S. M.: Effects of pregermination on germination properties of barley and resultant malt quality, J. Am. "
        "Soc. Brew. Chem. 52 (1994) 76 (energy lost in store, more water in the steep, mould, worse malt)",
        "abstract",
        address="https://doi.org/10.1094/ASBCJ-52-0076",
    ),
    "skinned-reference": Source(
        "United States grain inspection, Visual reference library, barley 2.1: skinned and broken kernels (a third or "
        "more of the hull gone, or loose or gone over the germ)",
        "read",
        address="http://www.gipsa.usda.gov/VRI/Barley/barley_of_2.1.html",
    ),
    "britannica-kilning": Source(
        "Young, T. W.: Beer, kilning, Encyclopædia Britannica (first air at 50 °C for lager and 65 °C for ale malt, "
        "cured at 75–90 and 90–105 °C to 5 and 2 %; 40 to 60 % of the enzymes stay active)",
        "read",
        address="http://www.britannica.com/EBchecked/topic/58378/beer/66622/Kilning",
    ),
    "malt-types-encyclopedia": Source(
        "Malt types, an article of an encyclopedia of food (most enzymes from barleys rich in protein, with less "
        "extract; colours of kilned malts: lager 3, Vienna 7, Munich 17 EBC)",
        "not citable",
        "title of the work and author were not noted on the page that was read",
    ),
    "dark-malt-trade": Source(
        "A trade portal’s page on malts of the Munich kind (protein up to almost 12 %, 45 % moisture or more, stewed "
        "at no more than 40 °C, then 80 to 85 °C)",
        "read",
        "its colours and curing temperature are those of one maker’s kind",
        "https://e-malt.com/specialmalt/en_munich.htm",
    ),
    "dark-malt-drying": Source(
        "What makes Munich malt production unique, a brewers’ library (1996): pale malts are dried at 40 to 45 °C with "
        "much air and warmed on only when drier than 10 %",
        "read",
        "it names De Clerck’s textbook",
        "http://www.brewery.org/library/Malt_AK0996.html",
    ),
    "grain-distilling": Source(
        "A message on raw materials of grain whisky (2008) (malt as a source of enzymes: diastatic power 180 to 200, "
        "50 dextrinizing units or more), after Bathgate 1989",
        "second-hand",
    ),
    "black-2021": Source(
        "Black, K., and others: Utilization of low nitrogen barley for production of distilling quality malt, J. Am. "
        "Soc. Brew. Chem. 79 (2021) 26 (nitrogen 1.16 % against under 1.5 %: opened further, more spirit)",
        "abstract",
        address="https://rke.abertay.ac.uk/en/publications/utilization-of-low-nitrogen-barley-for-production-of-distilling-q",
    ),
    "steep-and-filter-1999": Source(
        "Stewart, D., and others: The impact of malt steeping regime on beer filtration efficiency (1999) (malt opened "
        "too far: high losses, haze, colour, less foam)",
        "read",
        "the introduction",
        "http://www.regional.org.au/au/abts/1999/stewart.htm",
    ),
    "old-malting-book": Source(
        "A technical book of the 19th century in German, scanned by a German library, p. 341 and a few pages on (a "
        "mealy corn that is steeped enough draws a line on a board like chalk; six to eight days, four to six for "
        "distillers with longer roots)",
        "read",
        "its title was not on the pages that were read",
        "https://goobi.tib.eu/viewer/!fulltext/832861847/370",
    ),
    "wiley-barley": Source(
        "Wiley, H. W.: Foods and their adulteration (1907): typical barley, 4.53 g for 100 corns, 10.85 % moisture, "
        "11.00 % protein",
        "in a copy",
        "the year from memory",
    ),
    "corn-counting": Source(
        "A laboratory study of eight wheats (University of Mosul): how many grains to weigh for a mean; about 675 of "
        "wheat were enough",
        "abstract",
        address="https://iasj.net/iasj/article/93143",
    ),
    "barley-food-tcw": Source(
        "Barley for food and health: science, technology, and products (2008), p. 83: thousand-kernel weight 46 g (43 "
        "to 50) for two-rowed and 39 g (36 to 42) for six-rowed cultivars",
        "in a copy",
        "the year from memory",
    ),
    "woods-store-2000": Source(
        "Woods, J. L., McCallum, D. J.: Monitoring a commercial barley store in the north of England and comparison "
        "with a "
        "computer simulation of germination, J. Inst. Brew. 106 (2000) 411",
        "abstract",
        address="https://doi.org/10.1002/j.2050-0416.2000.tb00532.x",
    ),
    "armitage-2002": Source(
        "Armitage, D. M., Cook, D. A., Baxter, D. E.: Farm-scale experiments to compare infestation and quality "
        "changes in "
        "malting barley stored at three moisture contents, J. Inst. Brew. (2002)",
        "abstract",
        address="https://doi.org/10.1002/j.2050-0416.2002.tb00538.x",
    ),
    "store-adviser-2001": Source(
        "A grain storage expert of the Central Science Laboratory in a farming weekly, 2 Nov 2001: looked at "
        "every few "
        "days, then weekly; insects not under 16 °C, weevils to 12 °C, mites and fungi to 5 °C; malting barley not "
        "under 10 °C",
        "read",
        "a newspaper’s report of it",
        "https://www.fwi.co.uk/news/monitor-for-top-quality",
    ),
    "safestor": Source(
        "An Australian study of the storage life of malting barley by its damage index: slightly weather-damaged or "
        "warm "
        "grain under 95 % capacity in less than six months",
        "not citable",
        "the abstract was read; authors, journal and year were not noted",
    ),
    "cereal-pests": Source(
        "Serna-Saldivar, S.: Storage of cereal grains and detrimental effects of pests (book chapter): 65 % and less "
        "between "
        "the corns holds moulds back",
        "abstract",
        address="https://doi.org/10.1201/b11726-9",
    ),
}
