#!/usr/bin/env python3
"""Writes a large invented catalog for benchmarks: sources.csv, units.csv, points.csv. Standard library only.

    python3 scripts/generate_catalog.py --units 100000 --output bench-data

The same seed gives the same files, byte for byte. Every number is invented; about one unit in ten lacks something that
real data sheets lack too. Twenty-one points a unit, fourteen where no minimum is published.
"""

import argparse
import random
from pathlib import Path

HEATING = [-25.0, -15.0, -8.3, 1.7, 8.3]
COOLING = [27.8, 35.0]


def unit_lines(number, dice):
    rated = round(dice.uniform(3, 16), 1)
    form = dice.choice(["ducted", "wall", "floor", "cassette", "mixed"])
    hold = dice.uniform(0.45, 0.95)  # share of the rated capacity kept at -25 °C
    quality = dice.uniform(0.85, 1.1)
    turndown = dice.uniform(0.2, 0.6)
    limit = dice.choice(["", "-15", "-20", "-25", "-30"])
    key = f"bench {number:06d}"
    unit = (
        f"{key},Invented,{form},R32,{8 + 4 * quality:.1f},{limit},{5 + rated / 2:.0f},0.25,"
        f"{900 + 600 * rated:.0f},CAD,bench-invented\n")
    points = []

    def add(mode, speed, outdoor, capacity, cop, indoor, shr):
        points.append(f"{key},{mode},{speed},{outdoor},{indoor},{capacity:.2f},{cop * quality:.2f},{shr}\n")

    no_minimum = dice.random() < 0.05
    shr = "" if dice.random() < 0.05 else f"{dice.uniform(0.70, 0.82):.2f}"
    for speed, share, gain in [("minimum", turndown, 1.2), ("rated", 0.8, 1.08), ("maximum", 1.1, 1.0)]:
        if speed == "minimum" and no_minimum:
            continue
        for outdoor in HEATING:
            toward = (outdoor + 25) / 33.3
            capacity = rated * share * (hold + (1 - hold) * toward)
            add("heating", speed, outdoor, capacity, (1.55 + 2.2 * toward) * gain, "21.1,", "")
        for outdoor in COOLING:
            capacity = rated * 0.85 * share * (1.07 if outdoor < 30 else 1.0)
            add("cooling", speed, outdoor, capacity, (4.4 if outdoor < 30 else 3.4) * gain, "26.7,19.4", shr)
    return unit, "".join(points)


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("--units", type=int, default=100_000)
    arguments.add_argument("--seed", type=int, default=1)
    arguments.add_argument("--output", type=Path, default=Path("bench-data"))
    chosen = arguments.parse_args()
    dice = random.Random(chosen.seed)
    chosen.output.mkdir(parents=True, exist_ok=True)
    with (
        (chosen.output / "sources.csv").open("w") as sources,
        (chosen.output / "units.csv").open("w") as units,
        (chosen.output / "points.csv").open("w") as points,
    ):
        sources.write("source,title,publisher,licence,kind\n")
        sources.write("bench-invented,\"Benchmark catalog, invented\",this project,CC0 1.0,invented\n")
        units.write("unit,maker,form,refrigerant,hspf,operates_to_c,standby_w,degradation_heating,price,currency,source\n")
        points.write("unit,mode,speed,outdoor_db_c,indoor_db_c,indoor_wb_c,capacity_kw,cop,shr\n")
        for number in range(chosen.units):
            unit, own = unit_lines(number, dice)
            units.write(unit)
            points.write(own)


if __name__ == "__main__":
    main()
