"""Holds timetables against a general constraint solver, OR-tools CP-SAT (`pip install ortools`), on works as JSON.

    levamen day 2026-11-27 --as work > friday.json
    python3 crates/timetable/benches/peers.py 5,20 friday.json

prints for each work what the solver has after 5 and after 20 seconds on two workers: minutes of waiting, and its bound.
Everything is in time there, or it finds nothing. Ours on the same files:

    cargo run --release -p levamen-views --example plan_work -- 4 friday.json
"""

import json
import sys
import time

from ortools.sat.python import cp_model


class Answers(cp_model.CpSolverSolutionCallback):
    """When each better answer came."""

    def __init__(self):
        super().__init__()
        self.begin = time.time()
        self.found = []

    def on_solution_callback(self):
        self.found.append((time.time() - self.begin, int(self.objective_value)))

    def after(self, seconds):
        return min((waiting for at, waiting in self.found if at <= seconds), default=None)


def spans(resource, minutes):
    """From when to when how many places are open."""
    opens = resource["open"]
    ends = {0, minutes} | {min(max(end, 0), minutes) for open in opens for end in open[:2]}
    points = sorted(ends)
    for begin, end in zip(points, points[1:]):
        yield begin, end, sum(places for since, until, places in opens if since <= begin < until)


def limit(model, resource, minutes, taken):
    """No more is taken of a resource at any minute than is open."""
    open_spans = list(spans(resource, minutes))
    most = max((places for *_, places in open_spans), default=0)
    closed = [(begin, end, most - places) for begin, end, places in open_spans if places < most]
    intervals = [interval for interval, _ in taken]
    intervals += [model.new_fixed_size_interval_var(begin, end - begin, "") for begin, end, _ in closed]
    model.add_cumulative(intervals, [places for _, places in taken] + [less for *_, less in closed], most)


def model_of(work):
    """The work as a model: one start for each step, one way of several, and waiting as the objective."""
    minutes, model = work["minutes"], cp_model.CpModel()
    starts, taken = [], {}
    for step in work["steps"]:
        out = minutes if step["deadline"] is None else min(step["deadline"], minutes)
        start = model.new_int_var(step["release"], out - step["length"], "")
        starts.append(start)
        chosen = [model.new_bool_var("") for _ in step["ways"]]
        model.add_exactly_one(chosen)
        for way, is_chosen in zip(step["ways"], chosen):
            for need in way:
                if need["length"] == 0 or need["places"] == 0:
                    continue
                begin = start + need["after"]
                interval = model.new_optional_fixed_size_interval_var(begin, need["length"], is_chosen, "")
                taken.setdefault(need["resource"], []).append((interval, need["places"]))
    waiting = []
    for lag in work["lags"]:
        apart = starts[lag["before"]] - starts[lag["after"]]
        model.add(apart >= lag["least"])
        if lag["most"] is not None:
            model.add(apart <= lag["most"])
        waiting.append(apart - lag["least"])
    for step, start in zip(work["steps"], starts):
        if step["deadline"] is not None:
            waiting.append(step["deadline"] - step["length"] - start)
    for resource, intervals in taken.items():
        limit(model, work["resources"][resource], minutes, intervals)
    model.minimize(sum(waiting))
    return model


def main():
    limits = [float(seconds) for seconds in sys.argv[1].split(",")]
    for path in sys.argv[2:]:
        with open(path, encoding="utf-8") as file:
            work = json.load(file)
        solver, answers = cp_model.CpSolver(), Answers()
        solver.parameters.num_workers = 2
        solver.parameters.max_time_in_seconds = max(limits)
        status = solver.solve(model_of(work), answers)
        after = ", ".join(f"{answers.after(seconds)} after {seconds:g} s" for seconds in limits)
        bound, took = int(solver.best_objective_bound), solver.wall_time
        print(f"{path}: {len(work['steps'])} steps, {solver.status_name(status)}: {after}; at least {bound}; {took:.1f} s")


if __name__ == "__main__":
    main()
