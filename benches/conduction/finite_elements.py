"""The study's floor edge by finite elements (scikit-fem, quadratic triangles), to hold the
finite-volume solver against another method. Run by hand in a throw-away environment:

    python3 -m venv fem && fem/bin/pip install scikit-fem numpy scipy
    fem/bin/python benches/conduction/finite_elements.py > tests/published/conduction/finite_elements.csv

Three grids, every interval split by two from one to the next; the bar is the last difference.
"""
import sys

import numpy as np
import scipy
import skfem
from skfem import Basis, BilinearForm, FacetBasis, Functional, LinearForm
from skfem.helpers import dot, grad

MM = 1e-3
STEEL, FOAM, WOOD, PLY, AIR = 50.0, 0.025, 0.12, 0.13, 0.08
ROOM, OUTDOORS = 20.0, -10.0


def rectangles(foam):
    """x0, x1, y0, y1 in mm and W/mK; later ones lie on top."""
    deck = 120 + foam + 18
    drawn = [
        (0, 1200, 0, 0.8, STEEL), (0, 1200, 0.8, 120, FOAM), (4.8, 20, 0.8, 115.2, AIR),
        (152.4, 190.4, 0.8, 120, WOOD), (0, 4.8, 0, 120, STEEL), (0, 152.4, 115.2, 120, STEEL),
    ]
    if foam:
        drawn.append((12.8, 1200, 120, 120 + foam, FOAM))
    drawn += [
        (24.8, 1200, 120 + foam, deck, PLY), (0, 0.8, 120, 600, STEEL), (0.8, 12.8, 120, 600, AIR),
        (12.8, 24.8, 120, 600, PLY), (24.8, 113.7, deck, deck + 38, WOOD),
        (24.8, 113.7, deck + 38, 600, FOAM), (113.7, 122.7, deck, 600, PLY),
    ]
    return drawn, deck


def lines(edges, splits, at_edge=0.1, growth=0.35, scale=3.0):
    """Graded toward every edge, mm."""
    out = [edges[0]]
    for start, end in zip(edges[:-1], edges[1:]):
        half = np.log1p(growth * (end - start) / 2 / at_edge)
        steps = max(1, int(np.ceil(2 * half / growth / scale))) * splits
        t = np.arange(1, steps) / steps
        low = at_edge / growth * np.expm1(2 * t * half)
        high = (end - start) - at_edge / growth * np.expm1(2 * (1 - t) * half)
        out += list(start + np.where(t <= 0.5, low, high)) + [end]
    return np.array(out)


def solve(foam, splits):
    drawn, deck = rectangles(foam)
    x = lines(sorted({v for r in drawn for v in r[:2]}), splits) * MM
    y = lines(sorted({v for r in drawn for v in r[2:4]}), splits) * MM
    mesh = skfem.MeshTri.init_tensor(x, y)
    middle = mesh.p[:, mesh.t].mean(axis=1) / MM
    conductivity = np.zeros(mesh.t.shape[1])
    for x0, x1, y0, y1, k in drawn:
        inside = (middle[0] > x0) & (middle[0] < x1) & (middle[1] > y0) & (middle[1] < y1)
        conductivity[inside] = k
    solid = np.nonzero(conductivity > 0)[0]
    conductivity = conductivity[solid]
    mesh = mesh.restrict(solid)
    element = skfem.ElementTriP2()
    basis = Basis(mesh, element)
    k = np.broadcast_to(conductivity[:, None], (len(solid), basis.X.shape[-1]))
    stiffness = BilinearForm(lambda u, v, w: w.k * dot(grad(u), grad(v)))
    matrix = stiffness.assemble(basis, k=k)
    source = np.zeros(matrix.shape[0])
    near = lambda value, at: np.abs(value - at * MM) < 1e-9
    surfaces = [
        (lambda p: near(p[0], 0), 0.04, OUTDOORS), (lambda p: near(p[1], 0), 0.04, OUTDOORS),
        (lambda p: near(p[0], 122.7) & (p[1] > deck * MM), 0.13, ROOM),
        (lambda p: near(p[1], deck) & (p[0] > 122.7 * MM), 0.17, ROOM),
    ]
    inner = []
    for where, film, air in surfaces:
        facets = FacetBasis(mesh, element, facets=mesh.facets_satisfying(where, boundaries_only=True))
        matrix = matrix + BilinearForm(lambda u, v, w: u * v / film).assemble(facets)
        source = source + LinearForm(lambda v, w: air / film * v).assemble(facets)
        if air == ROOM:
            inner.append((facets, film))
    temperature = scipy.sparse.linalg.spsolve(matrix.tocsc(), source)
    flow = sum(
        Functional(lambda w: (ROOM - w.t) / film).assemble(facets, t=facets.interpolate(temperature))
        for facets, film in inner
    )
    points = np.array([
        [152.4, deck], [190.4, deck], [250, deck], [600, deck],
        [60, 120], [100, 117.6], [171.4, 119], [69.25, deck], [122.7, 300], [24.8, 200],
    ]).T * MM
    # Pulled in by a hair where they lie on a surface.
    at = basis.probes(points - np.array([[1e-9], [1e-9]])) @ temperature
    return len(source), flow, points / MM, at


def main():
    print(f"# scikit-fem {skfem.__version__}, numpy {np.__version__}, scipy {scipy.__version__},",
          f"Python {sys.version.split()[0]}: quadratic triangles, three grids (computed).")
    print("# By benches/conduction/finite_elements.py. bar: difference of the two finest grids.")
    print("foam_mm,x_mm,y_mm,value,bar")
    print("# x and y of -1: heat flow, W/m; otherwise temperature, °C.")
    for foam in (0, 25.4):
        runs = [solve(foam, splits) for splits in (1, 2, 4)]
        print([r[0] for r in runs], [r[1] for r in runs], file=sys.stderr)
        print(f"{foam},-1,-1,{runs[2][1]:.7f},{abs(runs[2][1] - runs[1][1]):.7f}")
        for n, (x, y) in enumerate(runs[2][2].T):
            fine, next_ = runs[2][3][n], runs[1][3][n]
            print(f"{foam},{x:g},{y:g},{fine:.6f},{abs(fine - next_):.6f}")


if __name__ == "__main__":
    main()
