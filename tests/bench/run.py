"""Speed and memory as ratios measured in one run on one machine. Prints; asserts nothing.

python tests/bench/run.py            all of them
python tests/bench/run.py pose ...   some: pose, process, planar, growth, memory
"""

from __future__ import annotations

import gc
import os
import subprocess
import sys
import tempfile
import time
import warnings
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from loadpath.model import LoadCase, Model

Places = list[tuple[float, float]]
Pairs = list[tuple[int, int]]

# Before numpy is imported: small matrices are slower on several threads, for both sides of every ratio.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "cases" / "light_van_rear.toml"
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]


def timed(run: Callable[[], object], least: float = 0.5, most: int = 200) -> float:
    """Median seconds of a call, garbage collector off, after one call to warm up."""
    run()
    gc.collect()
    gc.disable()
    found: list[float] = []
    end = time.perf_counter() + least
    while len(found) < 5 or (time.perf_counter() < end and len(found) < most):
        start = time.perf_counter()
        run()
        found.append(time.perf_counter() - start)
    gc.enable()
    return median(found)


def say(text: str) -> None:
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def pose() -> None:
    """One pose with 16 load cases, model to recovered stresses, against scipy on its own matrix."""
    import numpy as np
    from scipy.sparse.linalg import splu

    from loadpath.case import read_case
    from loadpath.frame import build_system, look_along, solve, stress_peaks
    from loadpath.loads import build

    case = read_case(DEMO)
    made = list(build(case.load_specs, case.vehicle, case.model).values())
    cases = (made + made)[:16]
    system = build_system(case.model)
    right = np.random.default_rng(0).standard_normal((system.reduced.shape[0], len(cases)))

    def whole() -> object:
        solution = solve(case.model, cases)
        return stress_peaks(solution, look_along(solution))

    ours, bare = timed(whole), timed(lambda: splu(system.reduced).solve(right))
    say(
        f"pose      {len(system.mesh.elements.length)} elements, {system.reduced.shape[0]} freedoms, 16 load cases: "
        f"{ours * 1e3:.2f} ms against {bare * 1e3:.2f} ms bare scipy = {ours / bare:.1f} x (must 5, aim 2)"
    )


def process() -> None:
    """`check` of the demo as a whole process against importing its libraries, compiled once as an installation is."""
    libraries = [sys.executable, "-c", "import numpy, scipy.sparse.linalg, pydantic, typer"]
    check = [sys.executable, "-c", "from loadpath.cli import run; run()", "check", str(DEMO)]
    with tempfile.TemporaryDirectory() as compiled:
        environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
        environment["PYTHONPYCACHEPREFIX"] = compiled
        pairs = [[_wall(command, environment) for command in (check, libraries)] for _ in range(8)][1:]
    ours, bare = zip(*pairs, strict=True)
    ratio = median(a / b for a, b in zip(ours, bare, strict=True))
    say(
        f"process   check {median(ours):.2f} s against imports {median(bare):.2f} s = {ratio:.2f} x (must 2, aim 1.5)"
    )


def _wall(command: list[str], environment: dict[str, str]) -> float:
    start = time.perf_counter()
    subprocess.run(command, check=False, stdout=subprocess.DEVNULL, cwd=ROOT, env=environment)
    return time.perf_counter() - start


def planar() -> None:
    """A planar frame of storeys against anastruct on the same frame."""
    from loadpath.frame import section_forces, solve

    for bays, storeys, must in ((9, 10, 40), (19, 15, 120)):
        nodes, members = _storeys(bays, storeys)
        model, load = _planar_model(nodes, members)

        def ours(model: Model = model, load: LoadCase = load) -> object:
            return section_forces(solve(model, [load]))

        other = _anastruct(nodes, members)
        mine = timed(ours)
        say(
            f"planar    {len(members)} members: {mine * 1e3:.1f} ms against anastruct {other * 1e3:.0f} ms = "
            f"{other / mine:.0f} x (must {must})"
        )


def _storeys(bays: int, storeys: int) -> tuple[Places, Pairs]:
    nodes = [(4000.0 * b, 3000.0 * s) for s in range(storeys + 1) for b in range(bays + 1)]
    w = bays + 1
    columns = [(k, k + w) for k in range(w * storeys)]
    beams = [(s * w + b, s * w + b + 1) for s in range(1, storeys + 1) for b in range(bays)]
    return nodes, columns + beams


def _planar_model(nodes: Places, members: Pairs) -> tuple[Model, LoadCase]:
    from small_models import bare_section, build, case, frame, member, push

    section = bare_section(6e3, 5e7, 5e7)
    points = {f"p{k}": (*xy, 0.0) for k, xy in enumerate(nodes)}
    parts = [member(f"m{k}", (f"p{i}", f"p{j}"), section) for k, (i, j) in enumerate(members)]
    feet = {f"p{k}": ("f", "welded") for k, (_, y) in enumerate(nodes) if y == 0}
    model = build(points, [frame("f", *parts)], supports=feet)
    return model, case(
        *(push(model, "f", f"p{k}", (1000, -5000, 0)) for k, (_, y) in enumerate(nodes) if y > 0)
    )


def _anastruct(nodes: Places, members: Pairs) -> float:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from anastruct import SystemElements

        start = time.perf_counter()
        system = SystemElements()
        for i, j in members:
            system.add_element([list(nodes[i]), list(nodes[j])], EA=210000 * 6e3, EI=210000 * 5e7)
        for x, y in nodes:
            node = system.find_node_id([x, y])
            if y == 0:
                system.add_support_fixed(node)
            else:
                system.point_load(node, Fx=1000, Fy=-5000)
        system.solve()
        return time.perf_counter() - start


def growth() -> None:
    """Cost from 10^2 to 2 10^4 members, frames of bounded span: ever more bays of four storeys."""
    import numpy as np

    from loadpath.frame import section_forces, solve

    sizes, costs = [], []
    for bays in (12, 40, 125, 400, 1250, 2500):
        nodes, members = _storeys(bays, 4)
        model, load = _planar_model(nodes, members)
        load = replace(load, loads=load.loads[:20])
        cost = timed(lambda model=model, load=load: section_forces(solve(model, [load])), 0.2, 20)
        sizes.append(len(members))
        costs.append(cost)
        say(
            f"growth    {len(members)} members: {cost * 1e3:.1f} ms, {cost / len(members) * 1e6:.0f} us a member"
        )
    slope = np.polyfit(np.log(sizes), np.log(costs), 1)[0]
    last = np.log(costs[-1] / costs[2]) / np.log(sizes[-1] / sizes[2])
    say(f"growth    n^{slope:.2f} over all, n^{last:.2f} from {sizes[2]} members on (must 1.3, aim 1.1)")


def memory() -> None:
    """Peak memory of `check` on the demo, whole process."""
    script = (
        "import sys\nfrom loadpath.cli import run\ntry:\n    run()\nexcept SystemExit:\n    pass\n"
        "status = open('/proc/self/status').read()\nsys.stderr.write(status.split('VmHWM:')[1].split()[0])"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, "check", str(DEMO)],
        check=True,
        capture_output=True,
        text=True,
        cwd=ROOT,
    )
    say(
        f"memory    {int(done.stderr.split()[-1]) / 1024:.0f} MB peak of check on the demo (must 250, aim 150)"
    )


BENCHES = {"pose": pose, "process": process, "planar": planar, "growth": growth, "memory": memory}

if __name__ == "__main__":
    for name in sys.argv[1:] or BENCHES:
        BENCHES[name]()
