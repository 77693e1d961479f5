"""An invented family of units for the demo: no such units exist, and no real unit stands behind any number."""

import coil

SOURCE = {
    "source": "invented-demo",
    "title": "Demo family, invented",
    "publisher": "this project",
    "year": 2026,
    "reference": "scripts/demo_family.py",
    "licence": "CC0 1.0",
    "kind": "invented",
    "note":
        "No such units exist; every number, price included, is made up to look like the trade's, with the gaps that "
        "real data sheets have.",
}

# Capacity at maximum speed as a share of the rated capacity, and COP, over outdoor temperature.
COLD_CLIMATE = {-25: (0.78, 1.62), -15: (0.98, 2.22), -8.3: (1.08, 2.62), 1.7: (1.15, 3.15), 8.3: (1.25, 3.75)}
ORDINARY = {-25: (0.48, 1.5), -15: (0.68, 2.02), -8.3: (0.82, 2.4), 1.7: (0.95, 2.95), 8.3: (1.1, 3.55)}

# By name: rated heating capacity [kW], form, shape of the maximum, minimum as a share of rated, coldest point,
# operating limit, COP factor, rated cooling capacity as a share of heating, rated SHR, refrigerant, HSPF, SEER, CD in heating,
# price, and what is peculiar.
FAMILY = [
    ("larch 3", 3.6, "wall", COLD_CLIMATE, 0.25, -25, -30, 1.06, 0.86, 0.75, "R32", 12.5, 24.0, 0.20, 2900, ()),
    ("larch 5", 5.4, "wall", COLD_CLIMATE, 0.24, -25, -30, 1.03, 0.86, 0.74, "R32", 11.8, 22.0, 0.20, 3700, ()),
    ("larch 6", 6.6, "wall", COLD_CLIMATE, 0.23, -25, -30, 1.00, 0.85, 0.74, "R32", 11.2, 20.5, 0.20, 4400, ()),
    ("larch 9", 9.0, "ducted", COLD_CLIMATE, 0.26, -25, -30, 0.99, 0.84, 0.76, "R32", 10.8, 19.0, 0.22, 6900, ()),
    ("larch 12", 12.0, "ducted", COLD_CLIMATE, 0.26, -25, -30, 0.98, 0.82, 0.76, "R32", 10.6, 18.5, 0.22, 8600, ()),
    ("larch 14", 14.0, "ducted", COLD_CLIMATE, 0.28, -25, -30, 0.97, 0.80, 0.76, "R32", 10.4, 18.0, 0.22, 9800, ()),
    ("hazel 7", 7.2, "floor", ORDINARY, 0.27, -15, -15, 1.00, 0.88, 0.75, "R410A", 10.2, 18.5, 0.25, 3900, ()),
    ("hazel 10", 10.5, "ducted", COLD_CLIMATE, None, -25, -27, 0.96, 0.85, 0.76, "R32", 10.1, 17.5, None, 7200,
     ("no minimum published",)),
    ("willow 8", 8.5, "ducted", ORDINARY, 0.30, -8.3, None, 0.98, 0.90, 0.77, "R410A", 9.6, 17.0, 0.25, 5600, ()),
    ("aspen 9", 9.2, "ducted", ORDINARY, None, -15, -18, 0.92, 0.95, 0.76, "R410A", 8.8, 14.5, 0.25, 4600,
     ("single speed",)),
    ("rowan 11", 11.5, "ducted", COLD_CLIMATE, 0.58, -25, -26, 0.95, 0.88, 0.75, "R32", 9.8, 16.5, 0.25, 7400, ()),
    ("alder 8", 8.0, "wall", COLD_CLIMATE, 0.28, -25, -28, 0.99, 0.88, 0.86, "R32", 10.5, 19.5, 0.22, 5100,
     ("high sensible heat ratio",)),
    ("juniper 5", 5.0, "floor", COLD_CLIMATE, 0.27, -25, -30, 1.02, 0.85, None, "R290", 11.4, 21.0, 0.20, 4300, ()),
    ("yew 13", 13.2, "mixed", COLD_CLIMATE, 0.22, -25, -30, 1.00, 0.75, 0.73, "R32", 10.9, 19.5, 0.20, 9900, ()),
]

# Cooling at 35 °C as a share of the rated capacity, and COP; what 27.8 °C adds to each.
COOLING = {"minimum": (None, 5.2), "rated": (1.0, 3.7), "maximum": (1.12, 3.2)}
MILDER_CAPACITY, MILDER_COP = 1.07, 1.28
# SHR of the other speeds beside the rated one: a slow compressor leaves the coil warmer.
SHR_OFFSET = {"minimum": 0.05, "rated": 0.0, "maximum": -0.02}


def family():
    """Units and points."""
    units, points = [], []
    for (name, rated, form, shape, turndown, coldest, limit, cop_factor, cooling_share, shr, refrigerant, hspf, seer,
         degradation, price, peculiar) in FAMILY:
        key = f"DEMO {name}"
        ducted = form in ("ducted", "mixed")
        units.append({
            "unit": key, "maker": "Invented", "outdoor_model": f"{name} outdoor", "indoor_model": f"{name} {form}",
            "form": form, "refrigerant": refrigerant, "certified": "no", "hspf": hspf, "hspf2": round(hspf * 0.89, 1),
            "seer": seer, "seer2": round(seer * 0.96, 1), "operates_to_c": limit,
            "external_static_pa": 125 if ducted else None, "sound_db_a": 52 + round(rated / 2),
            "circuit_ampacity_a": 10 + round(rated * 1.6), "standby_w": 6 + round(rated / 2),
            "degradation_heating": degradation, "degradation_cooling": degradation, "price": price, "currency": "CAD",
            "source": "invented-demo"})

        def add(mode, speed, outdoor, capacity, cop, **more):
            points.append({
                "unit": key, "mode": mode, "speed": speed, "outdoor_db_c": outdoor, "capacity_kw": f"{capacity:.2f}",
                "cop": f"{cop * cop_factor:.2f}", **more})

        single = "single speed" in peculiar
        heated = {"indoor_db_c": 21.1}
        for outdoor, (share, cop) in sorted(shape.items()):
            if outdoor < coldest:
                continue
            if single:
                add("heating", "rated", outdoor, rated * share / 1.1, cop * 1.03, **heated)
                continue
            add("heating", "maximum", outdoor, rated * share, cop, **heated)
            if outdoor in (8.3, -8.3):
                add("heating", "rated", outdoor, rated if outdoor > 0 else rated * 0.62, cop * 1.12, **heated)
            if turndown is not None:
                # The slowest speed still gives less where the outdoor air is colder.
                slowed = turndown * (1 + 0.009 * (outdoor - 8.3))
                add("heating", "minimum", outdoor, rated * slowed, cop * (1.32 if outdoor > -10 else 1.12), **heated)

        cooled = {"indoor_db_c": 26.7, "indoor_wb_c": 19.4}
        nominal = rated * cooling_share
        for speed, (share, cop) in COOLING.items():
            share = turndown if speed == "minimum" else share
            if share is None or (single and speed != "rated"):
                continue
            # A coil with more air than usual, as a high sensible heat ratio needs it.
            airflow = None
            speed_shr = None if shr is None else shr + SHR_OFFSET[speed]
            if speed_shr is not None and speed_shr > 0.82:
                airflow = coil.airflow_per_capacity(26.7, 19.4, speed_shr, 0.10)
            for outdoor in (27.8, 35):
                mild = outdoor < 30
                capacity = nominal * share * (MILDER_CAPACITY if mild else 1)
                more = dict(cooled)
                if speed_shr is not None:
                    more["shr"] = f"{speed_shr:.2f}"
                if airflow is not None:
                    more["airflow_l_s"] = f"{capacity * airflow:.0f}"
                add("cooling", speed, outdoor, capacity, cop * (MILDER_COP if mild else 1), **more)
    return units, points
