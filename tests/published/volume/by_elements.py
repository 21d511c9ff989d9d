#!/usr/bin/env python3
"""Outside corners of random floor edges, solved by finite elements with general-purpose libraries.

    tests/published/volume/by_elements.py SEED COUNT > tests/published/volume/by_elements.json

Wants scikit-fem and SciPy. What lies at a place hangs on the smaller distance from the two outer
faces, and on height; trilinear elements on a graded grid, films on every face that meets air. Solved on
two grids, the finer with steps of two thirds: told are the finer's numbers and how far they moved.
Lengths in m, temperatures in degrees C.
"""

import json
import random
import sys

import numpy as np
from scipy.sparse import diags
from scipy.sparse.linalg import cg
from skfem import Basis, BilinearForm, ElementHex0, ElementHex1, FacetBasis, LinearForm, MeshHex
from skfem.helpers import dot, grad

END = 0.7
FILMS = {"outdoors": {"up": 0.04, "sideways": 0.04, "down": 0.04},
         "room": {"up": 0.17, "sideways": 0.13, "down": 0.17}}


def edge(seed):
    """A floor edge: rectangles of the cut (name, from, to, W/mK), later over earlier, and airs."""
    draw = random.Random(seed)
    between = lambda low, high, digits=4: round(draw.uniform(low, high), digits)
    flange, thick, foam = between(0.06, 0.2), between(0.003, 0.01), between(0.012, 0.075)
    plate, deck = between(0.09, 0.16), between(0.012, 0.028)
    joist = between(0.1, 0.25)
    steel = joist
    top = round(steel + thick + foam, 4)
    floor = round(top + deck, 4)
    wall = round(plate + between(0.01, 0.02), 4)
    height = round(floor + 0.5, 4)
    leg = between(0.0, flange - 0.02)
    insulation = between(0.03, 0.05)
    rectangles = [
        ("insulation", [flange, steel - joist + 0.02], [END, top], insulation),
        ("flange", [0.0, steel], [flange, round(steel + thick, 4)], 50.0),
        ("web", [leg, 0.0], [round(leg + thick, 4), steel], 50.0),
        ("foam", [0.0, round(steel + thick, 4)], [flange, top], between(0.022, 0.036)),
        ("subfloor", [0.0, top], [END, floor], between(0.1, 0.16)),
        ("wall", [0.0, floor], [plate, height], between(0.035, 0.06)),
        ("plate", [0.0, floor], [plate, round(floor + 0.038, 4)], between(0.1, 0.16)),
        ("lining", [plate, floor], [wall, height], between(0.16, 0.3)),
    ]
    airs = [("outdoors", between(-25.0, 5.0, 1), [0.0, 0.0], [END, top]),
            ("room", between(17.0, 22.0, 1), [wall, floor], [END, height])]
    return {
        "seed": seed, "end": END, "height": height, "inboard": plate, "top": [top, floor], "wall": wall,
        "rectangles": [dict(zip(("name", "from", "to", "conductivity"), one)) for one in rectangles],
        "airs": [dict(zip(("name", "celsius", "from", "to"), one)) | {"films": FILMS[one[0]]} for one in airs],
    }


def lines(edges, first, growth):
    """Positions along an axis, fine at every edge."""
    edges = sorted(set(edges))
    positions = [edges[0]]
    for start, end in zip(edges, edges[1:]):
        half, steps, step = (end - start) / 2, [], first
        while sum(steps) < half:
            steps.append(step)
            step *= 1 + growth
        steps = np.array(steps) * half / sum(steps)
        from_start = start + np.cumsum(steps)
        positions += [*from_start, *(end - np.cumsum(steps)[::-1] + 0.0)[1:], end]
    return np.unique(np.round(positions, 12))


def solved(case, first, growth):
    """Coldest wood inboard of the plate, coldest floor, and heat from the room, W."""
    boxes = case["rectangles"] + case["airs"]
    across = [0.0, END] + [at for one in boxes for at in (one["from"][0], one["to"][0])]
    upward = [0.0] + [at for one in boxes for at in (one["from"][1], one["to"][1])]
    x, z = lines(across, first, growth), lines(upward, first, growth)
    mesh = MeshHex.init_tensor(x, x, z)
    middle = mesh.p[:, mesh.t].mean(axis=1)
    near, high = np.minimum(middle[0], middle[1]), middle[2]
    here = lambda one, at, up: ((one["from"][0] < at) & (at < one["to"][0])
                                & (one["from"][1] < up) & (up < one["to"][1]))
    conductivity = np.zeros(near.size)
    for one in case["rectangles"]:
        conductivity[here(one, near, high)] = one["conductivity"]
    solid = np.nonzero(conductivity)[0]
    mesh, conductivity = mesh.restrict(solid), conductivity[solid]
    basis = Basis(mesh, ElementHex1())
    constant = basis.with_element(ElementHex0())
    k = constant.interpolate(conductivity[np.argsort(constant.element_dofs[0])])
    matrix = BilinearForm(lambda u, v, w: w["k"] * dot(grad(u), grad(v))).assemble(basis, k=k)
    right = np.zeros(matrix.shape[0])
    faces = mesh.boundary_facets()
    of_faces = mesh.p[:, mesh.facets[:, faces]].mean(axis=1)
    within = mesh.p[:, mesh.t[:, mesh.f2t[0, faces]]].mean(axis=1)
    away = of_faces - within
    axis = np.abs(away / np.ptp(mesh.p[:, mesh.t[:, mesh.f2t[0, faces]]], axis=1)).argmax(axis=0)
    sign = np.sign(away[axis, np.arange(axis.size)])
    beyond = of_faces.copy()
    beyond[axis, np.arange(axis.size)] += 1e-7 * sign
    at, up = np.minimum(beyond[0], beyond[1]), beyond[2]
    inside = (at > 0) & (beyond[0] < END) & (beyond[1] < END) & (up > 0) & (up < case["height"])
    room = inside & here(case["airs"][1], at, up)
    looks = np.where(axis < 2, "sideways", np.where(sign > 0, "up", "down"))
    heat = []
    for name, met in (("outdoors", inside & ~room), ("room", room)):
        air = next(one for one in case["airs"] if one["name"] == name)
        for look in ("up", "sideways", "down"):
            some = faces[met & (looks == look)]
            if some.size:
                film = air["films"][look]
                facets = FacetBasis(mesh, ElementHex1(), facets=some)
                robin = BilinearForm(lambda u, v, w: u * v / film).assemble(facets)
                load = LinearForm(lambda v, w: v * air["celsius"] / film).assemble(facets)
                matrix, right = matrix + robin, right + load
                if name == "room":
                    heat.append((robin, load))
    matrix = matrix.tocsr()
    # What conductivities and steps differ by, the diagonal evens out.
    scale = diags(1 / matrix.diagonal())
    celsius, failed = cg(matrix, right, rtol=1e-10, maxiter=20_000, M=scale)
    assert not failed, failed
    at, up, hair = np.minimum(mesh.p[0], mesh.p[1]), mesh.p[2], 1e-9
    used = np.zeros(celsius.size, bool)
    used[np.unique(mesh.t)] = True
    level = lambda height: np.abs(up - height) < hair
    bottom, top = case["top"]
    wood = used & (at > case["inboard"] - hair) & (level(bottom) | level(top))
    floor = used & (at > case["wall"] - hair) & level(top)
    warmth = sum((load - robin @ celsius).sum() for robin, load in heat)
    return np.array([celsius[wood].min(), celsius[floor].min(), warmth]), int(used.sum())


def main():
    seed, count = int(sys.argv[1]), int(sys.argv[2])
    cases = []
    for case in (edge(seed + number) for number in range(count)):
        coarse, _ = solved(case, 0.0045, 0.75)
        fine, nodes = solved(case, 0.003, 0.5)
        moved = np.abs(fine - coarse)
        for name, value, by in zip(("wood", "floor", "watts"), fine, moved):
            case[name] = {"value": round(float(value), 5), "moved": round(float(by), 5)}
        case["nodes"] = nodes
        cases.append(case)
        print(case["seed"], nodes, [case[name] for name in ("wood", "floor", "watts")], file=sys.stderr, flush=True)
    print(json.dumps(cases, indent=1))


main()
