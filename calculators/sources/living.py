"""Sources on a batch as one: breathing, chitting, and an ensemble corrected by readings."""

from __future__ import annotations

from .kind import Source

SOURCES: dict[str, Source] = {
    "onofri-2018": Source(
        "Onofri, A., Benincasa, P., Mesgaran, M. B., Ritz, C.: Hydrothermal-time-to-event models for seed germination, "
        "European Journal of Agronomy 101 (2018) 129; data set barley of the R package drcSeedGerm",
        "read",
        "the data and their description, not the paper",
    ),
    "oxygen-seeds-1931": Source(
        "Temperature characteristics for the oxygen consumption of germinating seeds of Lupinus albus and Zea mays, "
        "J. Gen. Physiol. 14 (5) 631 (break at 19.5 °C; 16.6 and 21.05 kcal/mol below, 11.7 and 13.1 above)",
        "abstract",
        address="https://rupress.org/jgp/article/14/5/631/30084/TEMPERATURE-CHARACTERISTICS-FOR-THE-OXYGEN",
    ),
    "katharometer-seeds": Source(
        "A study of the carbon dioxide of single germinating seeds by katharometer: five phases",
        "abstract",
        "its title and authors are not on the page that was read",
        address="https://scilit.com/publications/7c61242e2cf0f3c6aad0241fd6492828",
    ),
    "vancampenhout-1998": Source(
        "Vancampenhout, L., and others: Online measurement of the microbial impacts on the germination of barley "
        "during malting, J. Inst. Brew. 104 (1998) 197",
        "abstract",
        "its profiles of carbon dioxide and heat are not in the abstract",
        address="https://acnpsearch.tweb-dev.unibo.it/singlejournalindex/57121435",
    ),
    "malthouse-calculation": Source(
        "A worked calculation of a malthouse, in Russian: 5.7 % of the dry matter breathed away in germination, 1 % "
        "skimmed and 0.6 % leached in the steep",
        "read",
        "a page of a collection of student work; days and temperature are not given",
        address="https://smekni.com/a/192917-5/tekhnologicheskie-raschety-v-brodilnykh-proizvodstvakh-5",
    ),
    "kitagawa-1996": Source(
        "Kitagawa, G.: Monte Carlo filter and smoother for non-Gaussian nonlinear state space models, "
        "J. Comput. Graph. Statist. 5 (1996) 1",
        "not read",
        "from memory",
    ),
    "zhou-hybrid-mcmc": Source(
        "Zhou, Q., Hu, Z., Yao, Z., Li, J.: A hybrid adaptive MCMC algorithm in function spaces, arXiv:1607.01458: "
        "moves fitted to the draws in a few directions, preconditioned Crank-Nicolson in all others",
        "abstract",
        address="https://www.arxiv-vanity.com/papers/1607.01458/",
    ),
    "del-moral-2006": Source(
        "Del Moral, P., Doucet, A., Jasra, A.: Sequential Monte Carlo samplers, J. R. Statist. Soc. B 68 (2006) 411",
        "not read",
        "from memory",
    ),
    "strong-2015": Source(
        "Strong, M., Oakley, J., Brennan, A., Breeze, P.: Estimating the expected value of sample information using "
        "the probabilistic sensitivity analysis sample: a fast, nonparametric regression-based method, Med. Decis. "
        "Making 35 (2015) 570",
        "abstract",
        "volume and page from memory",
    ),
    "jackson-2019": Source(
        "Jackson, C., Presanis, A., Conti, S., De Angelis, D.: Value of information: sensitivity analysis and research "
        "design in Bayesian evidence synthesis, J. Am. Stat. Assoc. 114 (2019) 1436",
        "not read",
        "cited by the R package voi for expected reduction in variance, whose page was read",
    ),
}
