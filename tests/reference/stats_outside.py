#!/usr/bin/python3
"""The statistics of counting beside SciPy, on counts made by dice, to within a millionth.

Usage: stats_outside.py DUSKWALK [HOW_MANY]. Exit 77: SciPy is not installed.

The program computes by Boost.Math. Some of scipy.stats does so too since SciPy 1.8, so the tails and
limits here come from scipy.special (Cephes): a binomial's limits by the inverse of the beta integral,
a Poisson mean's by the chi-square, a negative binomial mean's by a root of its own tails.
"""
import json, math, random, subprocess, sys

try:
    from scipy import special, stats
    from scipy.optimize import brentq
except ImportError:
    print("skipped: python3-scipy is not installed")
    sys.exit(77)

program, many = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 150
dice = random.Random(1934)  # the year of Clopper and Pearson's paper
tolerance = 1e-6
worst, compared, sorts = 0.0, 0, {}


def clopper_pearson(k, n, conf):
    tail = (1 - conf) / 2
    low = special.betaincinv(k, n - k + 1, tail) if k > 0 else 0.0
    high = 1 - special.betaincinv(n - k, k + 1, tail) if k < n else 1.0
    return low, high


def garwood(k, conf):
    tail = (1 - conf) / 2
    low = special.chdtri(2 * k, 1 - tail) / 2 if k > 0 else 0.0
    return low, special.chdtri(2 * k + 2, tail) / 2


def nb_tails(k, mean, size):
    p = size / (size + mean)
    return special.betainc(k, size, 1 - p) if k > 0 else 1.0, special.betainc(size, k + 1, p)


def nb_limits(k, size, conf):
    tail = (1 - conf) / 2
    most = 1e4 * (k + 10)
    low = brentq(lambda m: nb_tails(k, m, size)[0] - tail, 1e-12, most, xtol=1e-13, rtol=1e-13) if k > 0 else 0.0
    return low, brentq(lambda m: nb_tails(k, m, size)[1] - tail, 1e-12, most, xtol=1e-13, rtol=1e-13)


def decision(p_ge, p_le, alpha, beta):
    return "treat" if p_ge <= alpha else "watch" if p_le <= beta else "recount"


def wash(ask):
    k, n, conf = ask["k"], ask["n"], ask["conf"]
    if k > 0.3 * n:  # several mites sit on one bee
        low, high = (limit / n for limit in garwood(k, conf))
        return {"method": "garwood", "per_100": 100 * k / n, "low": 100 * low, "high": 100 * high}
    low, high = clopper_pearson(k, n, conf)
    p = ask["threshold_per_100"] / 100
    p_ge, p_le = special.bdtrc(k - 1, n, p) if k > 0 else 1.0, special.bdtr(k, n, p)
    return {"method": "clopper_pearson", "per_100": 100 * k / n, "low": 100 * low, "high": 100 * high, "p_ge": p_ge,
            "p_le": p_le, "decision": decision(p_ge, p_le, ask["alpha"], ask["beta"])}


def yard(ask):
    k, n, conf, c = ask["k"], ask["n"], ask["conf"], len(ask["k"])
    rates = [100 * a / b for a, b in zip(k, n)]
    sd = stats.tstd(rates)
    se = stats.sem(rates) * math.sqrt(1 - c / ask["colonies"])
    mean, total, bees, size = sum(rates) / c, sum(k), sum(n), ask["dispersion"] * c
    reach = stats.t.isf((1 - conf) / 2, c - 1) * se
    low, high = nb_limits(total, size, conf)
    p_ge, p_le = nb_tails(total, ask["threshold_per_100"] / 100 * bees, size)
    return {"mean_per_100": mean, "max_per_100": max(rates), "sd": sd, "se": se,
            "t_low": max(0.0, mean - reach), "t_high": mean + reach, "pooled_per_100": 100 * total / bees,
            "nb_low": 100 * low / bees, "nb_high": 100 * high / bees, "p_ge": p_ge, "p_le": p_le,
            "decision": decision(p_ge, p_le, ask["alpha"], ask["beta"])}


def ratio(ask):
    used = {"henderson_tilton": ("ta", "tb", "ca", "cb"), "abbott": ("ta", "ca"), "reduction": ("ta", "tb")}
    signs = {"ta": 1, "tb": -1, "ca": -1, "cb": 1}
    counts = [(ask[key], signs[key]) for key in used[ask["method"]]]
    half = 0.5 if any(mites == 0 for (mites, bees), sign in counts) else 0.0
    log = sum(sign * math.log((mites + half) / bees) for (mites, bees), sign in counts)
    spread = math.sqrt(ask["phi"] * sum(1 / (mites + half) for (mites, bees), sign in counts))
    left = stats.norm(log, spread)
    tail = (1 - ask["conf"]) / 2
    return {"efficacy_pct": 100 * -math.expm1(log), "low": 100 * -math.expm1(left.isf(tail)),
            "high": 100 * -math.expm1(left.ppf(tail)), "zero_corrected": half > 0}


def efficacy(ask):
    if ask["method"] != "follow_up":
        return ratio(ask)
    low, high = clopper_pearson(ask["killed"], ask["killed"] + ask["follow_up"], ask["conf"])
    return {"efficacy_pct": 100 * ask["killed"] / (ask["killed"] + ask["follow_up"]), "low": 100 * low,
            "high": 100 * high}


def board(ask):
    low, high = garwood(ask["fallen"], ask["conf"])
    per_mite, wide = ask["factor"] / ask["days"], ask["factor_uncertainty"]
    return {"per_day": ask["fallen"] / ask["days"], "colony": ask["fallen"] * per_mite,
            "low": low * per_mite / wide, "high": high * per_mite * wide}


def conf():
    return dice.choice((0.8, 0.9, 0.95, 0.99))


def cutoff():
    return {"threshold_per_100": dice.choice((1, 2, 3, 4.5)), "alpha": dice.choice((0.05, 0.1, 0.2)),
            "beta": dice.choice((0.02, 0.05, 0.1))}


def asks():
    for mites in (0, 1, 90, 91, 299, 300, 600):  # the edges: none, one, 30 in 100 bees, all, two on each
        yield {"type": "wash", "k": mites, "n": 300, "conf": 0.95, "threshold_per_100": 3, "alpha": 0.1, "beta": 0.1}
    for _ in range(many):
        n = dice.randrange(50, 700)
        yield {"type": "wash", "k": min(n, int(dice.expovariate(1 / 12))), "n": n, "conf": conf(), **cutoff()}
        c = dice.randrange(2, 16)
        yield {"type": "yard", "k": [int(dice.expovariate(1 / 9)) for _ in range(c)],
               "n": [dice.randrange(200, 400) for _ in range(c)], "colonies": c + dice.randrange(0, 30),
               "dispersion": dice.choice((0.3, 1.0, 2.5, 20.0)), "conf": conf(), **cutoff()}
        yield {"type": "efficacy", "method": dice.choice(("henderson_tilton", "abbott", "reduction")),
               **{key: [dice.randrange(0, 60), dice.randrange(200, 700)] for key in ("ta", "tb", "ca", "cb")},
               "phi": dice.choice((1, 2, 3.5)), "conf": conf()}
        yield {"type": "efficacy", "method": "follow_up", "killed": dice.randrange(0, 3000),
               "follow_up": dice.randrange(1, 200), "conf": conf()}
        yield {"type": "board", "fallen": dice.randrange(0, 200), "days": dice.choice((1, 2.5, 7)),
               "factor": dice.choice((30, 42, 500)), "factor_uncertainty": dice.choice((1, 2)), "conf": conf()}


def hold(ask, got, want):
    global worst, compared
    for key, value in want.items():
        compared += 1
        if isinstance(value, (str, bool)):
            # At the very edge of alpha a hair decides; nothing of that kind came up with these dice.
            assert got[key] == value, (ask, key, got[key], value)
            continue
        off = abs(got[key] - value) / max(1e-9, abs(value)) if value else abs(got[key])
        worst = max(worst, off)
        assert off < tolerance, (ask, key, got[key], value)


questions = list(asks())
answer = subprocess.run([program, "mites", "-"], input=json.dumps({"sampling": questions}), check=True,
                        capture_output=True, text=True)
answers = json.loads(answer.stdout)["sampling"]
assert len(answers) == len(questions), len(answers)
judges = {"wash": wash, "yard": yard, "efficacy": efficacy, "board": board}
for ask, got in zip(questions, answers):
    sorts[ask["type"]] = sorts.get(ask["type"], 0) + 1
    hold(ask, got, judges[ask["type"]](ask))
assert set(sorts) == set(judges) and compared > 25 * many, (sorts, compared)
print(f"{len(questions)} counts, {compared} figures: largest difference {worst:.1e}")
