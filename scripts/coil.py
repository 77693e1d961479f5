"""A cooling coil by apparatus dew point and bypass factor, as far as the built-in catalog needs it.

Moist air by the ASHRAE Handbook - Fundamentals, chapter Psychrometrics (Hyland-Wexler over water), at 101 325 Pa.
"""

import math

PRESSURE = 101_325.0
DENSITY = 1.204  # kg/m3, standard air


def saturation_pressure(t):
    """Over liquid water [Pa], 0 to 200 [°C]."""
    k = t + 273.15
    return math.exp(
        -5.8002206e3 / k + 1.3914993 - 4.8640239e-2 * k + 4.1764768e-5 * k * k - 1.4452093e-8 * k**3
        + 6.5459673 * math.log(k))


def saturation_humidity_ratio(t):
    p = saturation_pressure(t)
    return 0.621945 * p / (PRESSURE - p)


def enthalpy(t, w):
    return 1.006 * t + w * (2501 + 1.86 * t)


def humidity_ratio(dry, wet):
    saturated = saturation_humidity_ratio(wet)
    return ((2501 - 2.326 * wet) * saturated - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet)


def bisect(f, low, high):
    """The root of a function that is below zero at `low` and above at `high`."""
    for _ in range(200):
        middle = (low + high) / 2
        if f(middle) < 0:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def surface_temperature(h):
    """The temperature at which saturated air has this enthalpy."""
    return bisect(lambda t: enthalpy(t, saturation_humidity_ratio(t)) - h, 0.02, 60)


def sensible_heat_ratio(dry, wet, capacity_per_airflow, bypass):
    """Sensible share of the capacity of a coil; capacity per airflow in kW per L/s."""
    w_in = humidity_ratio(dry, wet)
    h_in = enthalpy(dry, w_in)
    h_adp = h_in - capacity_per_airflow * 1000 / DENSITY / (1 - bypass)
    w_adp = saturation_humidity_ratio(surface_temperature(h_adp))
    if w_adp >= w_in:
        return 1.0
    return min(1.0, (enthalpy(dry, w_adp) - h_adp) / (h_in - h_adp))


def airflow_per_capacity(dry, wet, shr, bypass):
    """The airflow [L/s per kW] at which a coil of this bypass factor has this sensible heat ratio."""
    return bisect(lambda v: sensible_heat_ratio(dry, wet, 1 / v, bypass) - shr, 30, 150)
