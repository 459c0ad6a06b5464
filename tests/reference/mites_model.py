#!/usr/bin/env python3
"""The mite model once more, in plain Python from its written rules, against `duskwalk mites`.

Usage: mites_model.py DUSKWALK [HOW_MANY]   compares random scenarios to 1e-7 relative.
Shares nothing with the program: arrays by age, one day after the other, in the order of the rules.
"""
import json, math, random, subprocess, sys

P = dict(worker_cap_day=9, worker_emerge_day=21, drone_cap_day=10, drone_emerge_day=24,
         early_share=.25, late_share=.25, worker_open_survival=.85, drone_open_survival=.75,
         bee_mass_g=.125, invasion_worker_g=.56, invasion_drone_g=6.49, mother_survival=.8,
         daughters_worker=1.0, daughters_drone=2.0, emergence_loss=.23, residual_days=3,
         residual_rate=.05, wash_recovery=.9, nest_bias=1.0, warmup_days=120, kill_max=.98,
         dose_scale_exposed_g=.42, dose_scale_field_g=2.6)


def at(curve, day):
    if not isinstance(curve, list):
        return curve
    if day <= curve[0][0]:
        return curve[0][1]
    for (d0, v0), (d1, v1) in zip(curve, curve[1:]):
        if day <= d1:
            return v0 + (v1 - v0) * (day - d0) / (d1 - d0)
    return curve[-1][1]


class Model:
    def __init__(self, s):
        self.s, self.p = s, {**P, **s.get("params", {})}
        p = self.p
        self.wc, self.we, self.dc, self.de = (p[k] for k in ("worker_cap_day", "worker_emerge_day",
                                                             "drone_cap_day", "drone_emerge_day"))
        self.mu = s.get("phoretic_mortality", .006)
        self.life = s["colony"].get("lifespan", 30)
        self.fixed = s["colony"].get("adult_mode", "dynamic") == "fixed"

    def laid(self, key, day):
        if any(a <= day < b for a, b in self.s["laying"].get("cages", [])):
            return 0.0
        return at(self.s["laying"].get(key, 0), day)

    def fill(self, day, key, cap, emerge, survival):
        """Cells of index a were laid on day-1-a; the last two have begun to open."""
        cells = []
        for a in range(emerge + 1):
            n = self.laid(key, day - 1 - a) * (survival if a >= cap else 1)
            n *= (1 - self.p["early_share"]) if a == emerge - 1 else self.p["late_share"] if a == emerge else 1
            cells.append(n)
        return cells

    def brood(self, day):
        p = self.p
        self.w = self.fill(day, "worker", self.wc, self.we, p["worker_open_survival"])
        self.d = self.fill(day, "drone", self.dc, self.de, p["drone_open_survival"])

    def start(self):
        p, days = self.p, self.p["warmup_days"]
        self.brood(-days)
        self.P, self.Fw, self.Fd = 1.0, [0.0] * (self.we - self.wc + 1), [0.0] * (self.de - self.dc + 1)
        self.A, self.res = float(self.s["colony"]["adults"]), 0
        fixed, self.fixed = self.fixed, True
        for day in range(-days, 0):
            self.step(day, immigration=0)
        self.fixed = fixed
        self.brood(0)
        m = self.s["mites"]
        have = {"wash_per_100": self.wash(), "phoretic": self.P, "total": self.total()}
        (key, value), = m.items()
        f = value / have[key]
        self.P *= f
        self.Fw, self.Fd = [x * f for x in self.Fw], [x * f for x in self.Fd]

    def total(self):
        return self.P + sum(self.Fw) + sum(self.Fd)

    def wash(self):
        return 100 * (self.P / self.A) * self.p["wash_recovery"] * self.p["nest_bias"]

    def open(self, F):
        e, l = self.p["early_share"], self.p["late_share"]
        q, n = (1 - e - l) / (1 - e), len(F)
        out = 0
        for i, share in ((n - 3, e), (n - 2, q), (n - 1, 1)):
            out += F[i] * share
            F[i] -= F[i] * share
        return out

    def step(self, day, immigration=None):
        p = self.p
        Cw = p["worker_open_survival"] * self.w[self.wc - 1]
        Cd = p["drone_open_survival"] * self.d[self.dc - 1]
        W = p["bee_mass_g"] * self.A
        Hw, Hd = (p["invasion_worker_g"] * Cw / W, p["invasion_drone_g"] * Cd / W) if W else (0, 0)
        Hm, Hr = at(self.mu, day), (p["residual_rate"] if self.res > 0 else 0)
        H = Hw + Hd + Hm + Hr
        Em = (self.open(self.Fw) * (p["mother_survival"] + p["daughters_worker"]) +
              self.open(self.Fd) * (p["mother_survival"] + p["daughters_drone"]))
        fall = p["emergence_loss"] * Em
        new = (1 - p["emergence_loss"]) * Em + (at(self.s.get("immigration", 0), day)
                                                 if immigration is None else immigration)
        gone = self.P * (1 - math.exp(-H)) + new * (1 - math.exp(-H / 2))
        self.P = self.P * math.exp(-H) + new * math.exp(-H / 2)
        share = (lambda h: gone * h / H) if H else (lambda h: 0.0)
        self.Fw, self.Fd = [share(Hw)] + self.Fw[:-1], [share(Hd)] + self.Fd[:-1]
        drop, residual = share(Hm) + fall, share(Hr)
        e, l = p["early_share"], p["late_share"]
        q = (1 - e - l) / (1 - e)
        emerged = 0
        for cells, last, worker in ((self.w, self.we, True), (self.d, self.de, False)):
            for i, part in ((last - 2, e), (last - 1, q), (last, 1)):
                if worker:
                    emerged += cells[i] * part
                cells[i] -= cells[i] * part
        self.w, self.d = [self.laid("worker", day)] + self.w[:-1], [self.laid("drone", day)] + self.d[:-1]
        self.w[self.wc], self.d[self.dc] = Cw, Cd
        if not self.fixed:
            self.A = self.A * math.exp(-1 / at(self.life, day)) + emerged
        self.res = max(0, self.res - 1)
        return drop, residual

    def run(self, treatment, days):
        self.start()
        t = treatment or {"days": [], "kill": 0}
        when = sorted(set(t["days"] if "days" in t else
                          [t["start"] + j * t.get("interval", 1) for j in range(t["rounds"])]))
        when = [d for d in when if d < days]
        if "dose_g" in t:
            scale = self.p["dose_scale_field_g" if t["preset"] == "field" else "dose_scale_exposed_g"]
            kill = self.p["kill_max"] * (1 - math.exp(-t["dose_g"] / scale))
        else:
            kill = t["kill"]
        away = min(1, t.get("foragers_away", 0) * t.get("forager_load", .5))
        out = {k: [] for k in ("total", "phoretic", "wash_per_100", "adults", "natural_drop", "treatment_kill")}
        for day in range(days + 1):
            for key, value in (("total", self.total()), ("phoretic", self.P),
                               ("wash_per_100", self.wash()), ("adults", self.A)):
                out[key].append(value)
            if day == days:
                break
            killed = 0
            if day in when:
                killed = self.P * kill * (1 - away)
                self.P -= killed
                self.res = self.p["residual_days"]
            drop, residual = self.step(day)
            out["natural_drop"].append(drop)
            out["treatment_kill"].append(killed + residual)
        return out


def scenario(r):
    curve = lambda low, high: r.choice([round(r.uniform(low, high), 3), sorted(
        [d, round(r.uniform(low, high), 3)] for d in r.sample(range(-60, 100), r.randint(1, 5)))])
    t = {"kill": round(r.random(), 3)} if r.random() < .5 else {"dose_g": round(r.uniform(.2, 5), 2),
                                                               "preset": r.choice(["field", "exposed"])}
    if r.random() < .5:
        t.update(start=r.randint(0, 10), rounds=r.randint(1, 7), interval=r.randint(1, 14))
    else:
        t["days"] = [r.randint(0, 120) for _ in range(r.randint(0, 6))]
    if r.random() < .5:
        t.update(foragers_away=round(r.random(), 2), forager_load=round(r.uniform(0, 2), 2))
    s = {"colony": {"adults": r.randint(2000, 40000), "adult_mode": r.choice(["fixed", "dynamic"]),
                    "lifespan": curve(20, 140)},
         "laying": {"worker": curve(0, 1800), "drone": curve(0, 60), "cages": sorted(
             [a, a + r.randint(1, 30)] for a in r.sample(range(-40, 80), r.randint(0, 2)))},
         "mites": {r.choice(["wash_per_100", "phoretic", "total"]): round(r.uniform(.1, 9), 3)},
         "days": r.randint(0, 110), "treatment": t}
    if r.random() < .4:
        s["immigration"] = curve(0, 20)
    if r.random() < .4:
        s["phoretic_mortality"] = curve(0, .02)
    if r.random() < .5:
        s["params"] = {"worker_cap_day": r.randint(7, 10), "worker_emerge_day": r.randint(18, 23),
                       "early_share": round(r.uniform(0, .5), 2), "late_share": round(r.uniform(0, .4), 2),
                       "residual_days": r.randint(0, 6), "residual_rate": round(r.uniform(0, .3), 3),
                       "warmup_days": r.choice([30, 120]), "emergence_loss": round(r.uniform(0, .4), 2)}
    return s


def main():
    program, many = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 25
    r, worst = random.Random(20261126), 0
    for n in range(many):
        s = scenario(r)
        got = json.loads(subprocess.run([program, "mites", "-"], input=json.dumps(s), text=True,
                                        check=True, capture_output=True).stdout)["run"]
        want = Model(s).run(s["treatment"], s["days"])
        for key, values in want.items():
            assert len(values) == len(got[key]), (n, key, len(values), len(got[key]), s)
            for day, (a, b) in enumerate(zip(values, got[key])):
                off = abs(a - b) / max(abs(a), 1e-12)
                worst = max(worst, off)
                assert off < 1e-7, (n, key, day, a, b, s)
    print(f"{many} scenarios agree; largest relative difference {worst:.1e}")


if __name__ == "__main__":
    main()
