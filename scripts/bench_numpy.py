"""The heating season and the moisture balance in plain NumPy, on the catalog that the benchmark made.

    python bench_numpy.py HEATING.db WHOLE.db

Written as one would write it with NumPy: arrays over a climate's states, a loop over units. It follows the same rules as
the program (points by speed, no credit beyond the cold end, cycling loss, apparatus dew point, bypass factor, indoor
humidity by bisection) and prints seconds per thousand units; sums are printed so that both can be compared.
"""

import sqlite3
import sys
import time

import numpy as np

DEGRADATION = 0.25
LOAD, DESIGN, ZERO = 8.0, -20.0, 15.0
SENSIBLE, COOL_DESIGN, COOL_ZERO = 5.0, 32.0, 18.0
INDOOR, LIMIT, ALTITUDE = 24.0, 0.6, 200.0
PEOPLE, EXCHANGE = 9 / 24, 3.6 * 1.204 * (12 + 30 * (1 - 0.5))
PRESSURE = 101325 * (1 - 2.25577e-5 * ALTITUDE) ** 5.2559


def saturation_pressure(t):
    k = t + 273.15
    ice = np.exp(-5.6745359e3 / k + 6.3925247 - 9.677843e-3 * k + 6.2215701e-7 * k**2 + 2.0747825e-9 * k**3
                 - 9.484024e-13 * k**4 + 4.1635019 * np.log(k))
    water = np.exp(-5.8002206e3 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k**2 - 1.4452093e-8 * k**3
                   + 6.5459673 * np.log(k))
    return np.where(t < 0.01, ice, water)


def saturated(t, p):
    pressure = saturation_pressure(t)
    return 0.621945 * pressure / (p - pressure)


def enthalpy(t, w):
    return 1.006 * t + w * (2501 + 1.86 * t)


def curve(points, t, cold_side):
    """Capacity and power over t: straight between points, 10 K beyond the mild end, NaN beyond the severe end."""
    outdoor, *values = (np.array(column) for column in zip(*points))
    mild = np.clip(t, outdoor[0] - (0 if cold_side else 10), outdoor[-1] + (10 if cold_side else 0))
    place = np.clip(np.searchsorted(outdoor, mild) - 1, 0, len(outdoor) - 2)
    share = (mild - outdoor[place]) / (outdoor[place + 1] - outdoor[place])
    severe = t < outdoor[0] if cold_side else t > outdoor[-1]
    found = []
    for number, value in enumerate(values):
        line = value[place] + (value[place + 1] - value[place]) * share
        if number == 1:
            line = np.maximum(line, 0.5 * value[-1 if cold_side else 0])
        found.append(np.where(severe, np.nan, line))
    return found


def heating_season(speeds, limit, hours, t):
    """Load, heat pump heat, electricity and backup of one unit [kWh]."""
    load = LOAD * (ZERO - t) / (ZERO - DESIGN)
    top, top_power = curve(speeds[2], t, True)
    low, low_power = curve(speeds.get(0, speeds[2]), t, True)
    stopped = np.isnan(top) | (t < (limit if limit is not None else -np.inf))
    flat = load >= top
    cycling = load < low
    ladder = [(low, low_power), (top, top_power)]
    if 0 in speeds and 1 in speeds:
        middle, middle_power = curve(speeds[1], t, True)
        inside = (low < middle) & (middle < top)
        lower = inside & (load >= middle)
        first = [np.where(lower, m, a) for m, a in ((middle, low), (middle_power, low_power))]
        second = [np.where(inside & ~lower, m, b) for m, b in ((middle, top), (middle_power, top_power))]
        ladder = [first, second]
    (a, a_power), (b, b_power) = ladder
    with np.errstate(divide="ignore", invalid="ignore"):
        cop = a / a_power + (b / b_power - a / a_power) * (load - a) / (b - a)
        fraction = load / low
        input_power = np.where(flat, top_power, np.where(cycling, fraction * low_power / (1 - DEGRADATION * (1 - fraction)),
                                                         load / cop))
    delivered = np.where(stopped, 0, np.where(flat, top, load))
    input_power = np.where(stopped, 0, input_power)
    return [float(np.sum(hours * value)) for value in (load, delivered, input_power, load - delivered)]


def bypass(capacity, ratio, airflow):
    """Bypass factor of one point at 26.7 °C and 19.4 °C wet bulb, or None."""
    ws = saturated(19.4, 101325.0)
    w_in = ((2501 - 2.326 * 19.4) * ws - 1.006 * 7.3) / (2501 + 1.86 * 26.7 - 4.186 * 19.4)
    m = 1.204 * airflow / 1000
    h_in = enthalpy(26.7, w_in)
    h_out = h_in - capacity / m
    t_out = 26.7 - ratio * capacity / (m * (1.006 + 1.86 * w_in))
    w_out = (h_out - 1.006 * t_out) / (2501 + 1.86 * t_out)
    grid = np.linspace(t_out, -20, 400)
    above = w_out + (w_in - w_out) / (26.7 - t_out) * (grid - t_out) - saturated(grid, 101325.0)
    met = np.flatnonzero(above >= 0)
    if above[0] > 0 or len(met) == 0:
        return None
    low, high = grid[met[0]], grid[met[0] - 1]
    for _ in range(60):
        middle = (low + high) / 2
        if w_out + (w_in - w_out) / (26.7 - t_out) * (middle - t_out) >= saturated(middle, 101325.0):
            low = middle
        else:
            high = middle
    h_adp = enthalpy(low, saturated(low, 101325.0))
    return (h_out - h_adp) / (h_in - h_adp)


GRID_T = np.linspace(-60, 50, 20001)
GRID_W = saturated(GRID_T, PRESSURE)
GRID_H = enthalpy(GRID_T, GRID_W)


def latent_kept(x):
    """Part-load latent degradation with the fan running on, laid out once."""
    return np.interp(x, LATENT_X, LATENT_L)


def lay_out_latent():
    x = np.linspace(0.5, 1 - 1e-9, 4001)
    on, off = 300 / (1 - x), np.minimum(300 / x, 2000 / 1.5)
    a = 1.5 * off - (1.5 * off) ** 2 / 4000
    t = a + 45
    for _ in range(60):
        t = t - (t - a + 45 * (np.exp(-t / 45) - 1)) / np.maximum(1 - np.exp(-t / 45), 1e-12)
    return x, np.maximum(0, (on - t) / (on + 45 * (np.exp(-on / 45) - 1)))


LATENT_X, LATENT_L = lay_out_latent()


def cooling_season(speeds, hours, t, outdoor_w):
    """Sensible heat, electricity, moisture removed and humid hours of one unit."""
    load = SENSIBLE * (t - COOL_ZERO) / (COOL_DESIGN - COOL_ZERO)
    coils = []
    for speed in (0, 2):
        points = speeds.get(speed, speeds[2])
        with_bypass = []
        for outdoor, capacity, power, ratio, airflow in points:
            airflow = airflow or 54 * capacity
            factor = bypass(capacity, ratio or 0.75, airflow)
            if factor is None:
                return None
            with_bypass.append((outdoor, capacity, power, airflow, factor))
        capacity, power, airflow, factor = curve(with_bypass, t, False)
        coils.append((capacity, power, capacity / (1.204 * airflow / 1000 * (1 - factor))))
    per_kilowatt = 3600 / (2501 - 2.361 * INDOOR)

    def operate(w):
        parts = []
        for capacity, power, reach in coils:
            h_in = enthalpy(INDOOR, w)
            w_adp = np.interp(h_in - reach, GRID_H, GRID_W)
            latent = np.where(w_adp < w, capacity * (w - w_adp) * (2501 + 1.86 * INDOOR) / reach, 0)
            parts.append((capacity - latent, latent, power))
        (s0, l0, p0), (s1, l1, p1) = parts
        with np.errstate(divide="ignore", invalid="ignore"):
            x = load / s0
            y = (load - s0) / (s1 - s0)
            cycles, flat = load < s0, load >= s1
            latent = np.where(flat, l1, np.where(cycles, x * l0 * latent_kept(x), l0 + (l1 - l0) * y))
            power = np.where(flat, p1, np.where(cycles, x * p0 / (1 - DEGRADATION * (1 - x)), p0 + (p1 - p0) * y))
        return latent * per_kilowatt, power, np.where(flat, s1, load)

    top = saturated(INDOOR, PRESSURE)
    low, high = np.zeros_like(t), np.full_like(t, top)
    for _ in range(40):  # to 2e-14 kg/kg
        middle = (low + high) / 2
        above = PEOPLE + EXCHANGE * (outdoor_w - middle) - operate(middle)[0] > 0
        low, high = np.where(above, middle, low), np.where(above, high, middle)
    removal, power, sensible = operate((low + high) / 2)
    proven = ~np.isnan(power)
    pressure = LIMIT * saturation_pressure(INDOOR)
    limit = 0.621945 * pressure / (PRESSURE - pressure)
    humid = (low + high) / 2 > limit
    return [float(np.sum((hours * value)[proven])) for value in (sensible, power, removal, humid)]


def climate(connection):
    rows = connection.execute("SELECT hours, outdoor_db_c, humidity_ratio FROM climate_state JOIN climate ON id = climate_id"
                              " WHERE key = 'chicago-ohare' AND month = 0").fetchall()
    return (np.array(column) for column in zip(*rows))


def units(connection, mode, wanted):
    query = ("SELECT unit_id, speed, outdoor_db_c, capacity_kw, power_kw, shr, point.airflow_l_s, operates_to_c FROM point"
             " JOIN unit ON unit.id = unit_id WHERE mode = ? AND key LIKE 'bench %'"
             " ORDER BY unit_id, speed, outdoor_db_c")
    found = {}
    for unit, speed, outdoor, capacity, power, ratio, airflow, limit in connection.execute(query, (mode,)):
        if unit not in found:
            if len(found) == wanted:
                break
            found[unit] = ({}, limit)
        point = (outdoor, capacity, power) if mode == 0 else (outdoor, capacity, power, ratio, airflow)
        found[unit][0].setdefault(speed, []).append(point)
    return list(found.values())


def main():
    connection = sqlite3.connect(f"file:{sys.argv[1]}?mode=ro", uri=True)
    hours, t, _ = climate(connection)
    chosen = t < ZERO
    hours, t = hours[chosen], t[chosen]
    some = units(connection, 0, 5000)
    start = time.perf_counter()
    sums = np.sum([heating_season(speeds, limit, hours, t) for speeds, limit in some], axis=0)
    spent = time.perf_counter() - start
    print(f"{spent / len(some) * 1000:8.3f} s per 1000 units, heating season ({len(some)} units; load, delivered, electricity, backup: "
          + ", ".join(f"{value:.6g}" for value in sums) + ")")
    connection = sqlite3.connect(f"file:{sys.argv[2]}?mode=ro", uri=True)
    hours, t, w = climate(connection)
    chosen = t > COOL_ZERO
    hours, t, w = hours[chosen], t[chosen], w[chosen]
    some = units(connection, 1, 1000)
    start = time.perf_counter()
    results = [cooling_season(speeds, hours, t, w) for speeds, _ in some]
    spent = time.perf_counter() - start
    sums = np.sum([result for result in results if result is not None], axis=0)
    print(f"{spent / len(some) * 1000:8.3f} s per 1000 units, cooling season with moisture ({len(some)} units; sensible, electricity, "
          "removed, humid hours: " + ", ".join(f"{value:.6g}" for value in sums) + ")")


if __name__ == "__main__":
    main()
