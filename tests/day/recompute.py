"""What a day of the demo bakery needs of each ingredient, in exact fractions of a gram."""

import csv
import json
from collections import defaultdict
from fractions import Fraction
from math import ceil
from pathlib import Path

HERE = Path(__file__).parent


def percents(shares):
    return {name: Fraction(percent) / 100 for name, percent in shares.items()}


def composition(shares):
    whole = sum(shares.values())
    return {name: share / whole for name, share in shares.items()}


def overall(dough, doughs):
    """Each ingredient in the whole dough, for one of flour. Old dough of another may bring what the formula does not name."""
    named = percents(dough["overall"])
    of_dough = percents(dough.get("of the dough", {}))
    if "old dough" in dough:
        old = dough["old dough"]
        part = Fraction(old["of the dough"]) / 100
        for name, share in composition(overall(doughs[old["of"]], doughs)).items():
            if name not in named:
                of_dough[name] = part * share
    weight = sum(named.values()) / (1 - sum(of_dough.values()))
    return named | {name: share * weight for name, share in of_dough.items()}


def brought_by_seed(seed, culture):
    """What seed that stays brings for one of flour: `takes` is the stage's flour, that of its seed included."""
    flours, rest = percents(culture["flours"]), percents(culture["rest"])
    parts = flours | rest
    whole = sum(parts.values())
    takes, dose = Fraction(seed["stage takes"]) / 100, Fraction(seed["on its own flour"]) / 100
    own_flour = takes / (1 + dose * sum(flours.values()) / whole)
    return {name: dose * own_flour * part / whole for name, part in parts.items()}


def issued(dough, facts):
    """What is weighed for one of flour in the dough."""
    shares, cultures = overall(dough, facts["doughs"]), facts["cultures"]
    for seed in dough.get("seeds", []):
        for name, share in brought_by_seed(seed, cultures[seed["culture"]]).items():
            shares[name] -= share
    if "steam" in dough:
        steam = dough["steam"]
        poured = Fraction(steam["stage flour"]) / 100 * Fraction(steam["water on it"]) / 100
        shares[steam["of"]] += poured * Fraction(steam["loses"]) / 100
    return shares


def made(product, ordered):
    """Pieces to make: spares on top, then whole heads of the divider."""
    spare = ceil(Fraction(product.get("spare", "0")) / 100 * ordered) + product.get("spare pieces", 0)
    head = product.get("head", 1)
    return ceil(Fraction(ordered + spare, head)) * head


def dough_of(product, pieces):
    """The dough that pieces take, in grams, what is lost in mixing and dividing included."""
    if "piece g" in product:
        piece = Fraction(product["piece g"])
    else:
        piece = Fraction(product["baked g"]) / (1 - Fraction(product["bake loss"]) / 100)
    return piece * pieces / (1 - Fraction(product["losing"]) / 100)


def needs(facts, orders):
    """Old dough needs no line: what a dough takes of it today is kept of it today for tomorrow, made of the same."""
    doughs, products = facts["doughs"], facts["products"]
    sold, total = defaultdict(Fraction), defaultdict(Fraction)
    for name, ordered in orders.items():
        product = products[name]
        pieces = made(product, ordered)
        sold[product["dough"]] += dough_of(product, pieces)
        for topping, grams in product.get("on each", {}).items():
            total[topping] += Fraction(grams) * pieces
    for name, mass in sold.items():
        dough = doughs[name]
        flour = mass / sum(overall(dough, doughs).values())
        for ingredient, share in issued(dough, facts).items():
            total[ingredient] += share * flour
    return total


def main():
    facts = json.loads((HERE / "doughs.json").read_text())
    orders = defaultdict(int)
    with open(HERE / "orders.csv", newline="") as file:
        for row in csv.DictReader(file):
            orders[row["product"]] += int(row["quantity"])
    total = needs(facts, orders)
    print(json.dumps({name: str(total[name]) for name in sorted(total)}, indent=2))


if __name__ == "__main__":
    main()
