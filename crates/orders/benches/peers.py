#!/usr/bin/env python3
"""Orders to what is weighed, by general libraries for tables, beside the same work here.

    cargo build --release -p levamen-orders --examples
    python3 -m venv peers && peers/bin/pip install polars duckdb pandas pyarrow
    peers/bin/python crates/orders/benches/peers.py target/release/examples [lines]     # takes GNU time, too

Each program reads the same file and adds up grams by day, dough, stage and line; all must come to the same weight. They take turns,
and medians of all turns are printed: of the whole command, and for the libraries of the work alone, repeated in one
process that has already loaded them (warm). Only ours looks for duplicates and wrong lines, and only ours is exact.
"""

import os
import subprocess
import sys
import tempfile
import time
from statistics import median

TURNS = 7


def with_polars(folder):
    import polars as pl

    orders = pl.scan_csv(f"{folder}/orders.csv")
    products, lines = pl.scan_csv(f"{folder}/products.csv"), pl.scan_csv(f"{folder}/lines.csv")
    doughs = (
        orders.group_by("date", "product").agg(pl.col("quantity").sum())
        .join(products, on="product")
        .group_by("date", "dough").agg((pl.col("quantity") * pl.col("piece")).sum().alias("grams"))
    )
    weighed = doughs.join(lines, on="dough").select(
        "date", "dough", "stage", "line", (pl.col("grams") * pl.col("share")).alias("grams")
    )
    result = weighed.collect()
    return result.height, result["grams"].sum()


def with_duckdb(folder):
    import duckdb

    connection = duckdb.connect()
    return connection.execute(f"""
        with pieces as (select date, product, sum(quantity) as pieces from read_csv('{folder}/orders.csv') group by all),
        doughs as (select date, dough, sum(pieces * piece) as grams
                   from pieces join read_csv('{folder}/products.csv') using (product) group by all),
        weighed as (select date, dough, stage, line, grams * share as grams
                    from doughs join read_csv('{folder}/lines.csv') using (dough))
        select count(*), sum(grams) from weighed
    """).fetchone()


def with_pandas(folder, **how):
    import pandas as pd

    orders = pd.read_csv(f"{folder}/orders.csv", usecols=["date", "product", "quantity"], **how)
    pieces = orders.groupby(["date", "product"], as_index=False)["quantity"].sum()
    pieces = pieces.merge(pd.read_csv(f"{folder}/products.csv"), on="product")
    pieces["grams"] = pieces["quantity"] * pieces["piece"]
    doughs = pieces.groupby(["date", "dough"], as_index=False)["grams"].sum()
    weighed = doughs.merge(pd.read_csv(f"{folder}/lines.csv"), on="dough")
    weighed["weight"] = weighed["grams"] * weighed["share"]
    return len(weighed), weighed["weight"].sum()


def with_pandas_arrow(folder):
    return with_pandas(folder, engine="pyarrow")


PEERS = {"polars": with_polars, "duckdb": with_duckdb, "pandas": with_pandas, "pandas, pyarrow": with_pandas_arrow}


def command(arguments):
    """Wall seconds, CPU seconds, peak MiB and output of a command."""
    with tempfile.TemporaryFile() as output, tempfile.NamedTemporaryFile("r") as peak:
        start = time.perf_counter()
        # The peak of a child of Python is at least that of Python; that of a child of `time` is its own.
        process = subprocess.Popen(["/usr/bin/time", "-f", "%M", "-o", peak.name, *arguments], stdout=output)
        _, status, usage = os.wait4(process.pid, 0)
        wall = time.perf_counter() - start
        process.returncode = status
        assert status == 0, arguments
        output.seek(0)
        return wall, usage.ru_utime + usage.ru_stime, int(peak.read()) / 1024, output.read().decode()


def run_peer(name, folder, times):
    seconds = []
    for _ in range(times):
        start = time.perf_counter()
        rows, grams = PEERS[name](folder)
        seconds.append(time.perf_counter() - start)
    print(f"{rows} rows, {grams:.0f} g")
    print(median(seconds[1:] or seconds))


def main():
    if sys.argv[1] == "--run":
        return run_peer(sys.argv[2], sys.argv[3], int(sys.argv[4]))
    programs, lines = sys.argv[1], sys.argv[2] if len(sys.argv) > 2 else "1000000"
    with tempfile.TemporaryDirectory() as folder:
        with open(f"{folder}/orders.csv", "wb") as orders:
            subprocess.run([f"{programs}/generate", lines], stdout=orders, check=True)
        subprocess.run([f"{programs}/ingredients", "--tables", folder], check=True)
        commands = {
            "Levamen": [f"{programs}/ingredients", f"{folder}/orders.csv"],
            "csv crate, records dropped": [f"{programs}/records", f"{folder}/orders.csv"],
        }
        for name in PEERS:
            commands[name] = [sys.executable, __file__, "--run", name, folder, "1"]
        measured, said = {name: [] for name in commands}, {}
        for _ in range(TURNS):
            for name, arguments in commands.items():
                *figures, output = command(arguments)
                measured[name].append(figures)
                said[name] = output.splitlines()[0]
        ours = [median(column) for column in zip(*measured["Levamen"])]
        print(f"{'':28} {'wall':>9} {'ratio':>6} {'CPU':>9} {'ratio':>6} {'peak':>10}")
        for name, figures in measured.items():
            wall, cpu, peak = (median(column) for column in zip(*figures))
            print(
                f"{name:28} {wall * 1000:6.0f} ms {wall / ours[0]:6.2f} {cpu * 1000:6.0f} ms {cpu / ours[1]:6.2f}"
                f" {peak:6.1f} MiB   {said[name]}"
            )
        for name in PEERS:
            output = command([sys.executable, __file__, "--run", name, folder, str(TURNS)])[-1]
            again = median(command(commands["Levamen"])[0] for _ in range(TURNS))
            warm = float(output.splitlines()[1])
            print(f"{name:28} {warm * 1000:6.0f} ms {warm / again:6.2f}   warm, beside our whole command right after it")


main()
