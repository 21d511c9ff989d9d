"""General-purpose peers of our conduction solver on the same matrix, one thread.

    peers.py cholmod|pyamg FILE CELLS RUNS     from the matrix to the temperatures, residual 1e-8
    peers.py scikit-fem CELLS RUNS             mesh, assembly, solution, heat flow
    peers.py table TIMES                       medians and ratios of what all runs printed
"""
import os
import statistics
import sys
import time

for threads in ("OMP", "OPENBLAS", "MKL"):
    os.environ[threads + "_NUM_THREADS"] = "1"


def read(file):
    import numpy as np
    import scipy.sparse

    with open(file, "rb") as source:
        unknowns, entries = np.fromfile(source, np.uint64, 2).astype(int)
        rows = np.fromfile(source, np.uint64, entries).astype(np.int32)
        columns = np.fromfile(source, np.uint64, entries).astype(np.int32)
        values = np.fromfile(source, np.float64, entries)
        right = np.fromfile(source, np.float64, unknowns)
    return scipy.sparse.csc_matrix((values, (rows, columns)), shape=(unknowns, unknowns)), right


def on_matrix(peer, file, cells, runs):
    import numpy as np

    matrix, right = read(file)
    if peer == "cholmod":
        from sksparse.cholmod import cholesky

        solve = lambda: cholesky(matrix)(right)
    else:
        import pyamg

        rows = matrix.tocsr()
        solve = lambda: pyamg.ruge_stuben_solver(rows).solve(right, tol=1e-8, accel="cg", maxiter=500)
    for _ in range(runs):
        start = time.perf_counter()
        x = solve()
        elapsed = time.perf_counter() - start
        residual = np.linalg.norm(right - matrix @ x) / np.linalg.norm(right)
        print(f"{peer}: residual {residual:.1e}", file=sys.stderr)
        print(f"{peer} {cells} {elapsed * 1e3:.4f}")


def whole(cells, runs):
    import numpy as np
    import scipy.sparse.linalg
    import skfem
    from skfem.helpers import dot, grad

    from finite_elements import MM, OUTDOORS, ROOM, lines, rectangles

    try:
        from sksparse.cholmod import cholesky

        solve = lambda matrix, source: cholesky(matrix.tocsc())(source)
    except ImportError:
        solve = lambda matrix, source: scipy.sparse.linalg.spsolve(matrix.tocsc(), source)
    drawn, deck = rectangles(0)
    edges = [sorted({v for r in drawn for v in r[2 * a:2 * a + 2]}) for a in (0, 1)]
    grid = lambda scale: [lines(e, 1, at_edge=0.4, growth=0.3, scale=scale) for e in edges]
    low, high = 1e-3, 50.0
    for _ in range(60):
        middle = (low * high) ** 0.5
        x, y = grid(middle)
        if (len(x) - 1) * (len(y) - 1) > float(cells):
            low = middle
        else:
            high = middle
    x, y = (axis * MM for axis in grid(high))
    near = lambda value, at: np.abs(value - at * MM) < 1e-9
    surfaces = [
        (lambda p: near(p[0], 0), 0.04, OUTDOORS), (lambda p: near(p[1], 0), 0.04, OUTDOORS),
        (lambda p: near(p[0], 122.7) & (p[1] > deck * MM), 0.13, ROOM),
        (lambda p: near(p[1], deck) & (p[0] > 122.7 * MM), 0.17, ROOM),
    ]
    for _ in range(runs):
        start = time.perf_counter()
        mesh = skfem.MeshTri.init_tensor(x, y)
        middle = mesh.p[:, mesh.t].mean(axis=1) / MM
        k = np.zeros(mesh.t.shape[1])
        for x0, x1, y0, y1, value in drawn:
            inside = (middle[0] > x0) & (middle[0] < x1) & (middle[1] > y0) & (middle[1] < y1)
            k[inside] = value
        solid = np.nonzero(k > 0)[0]
        mesh = mesh.restrict(solid)
        basis = skfem.Basis(mesh, skfem.ElementTriP1())
        spread = np.broadcast_to(k[solid][:, None], (len(solid), basis.X.shape[-1]))
        matrix = skfem.BilinearForm(lambda u, v, w: w.k * dot(grad(u), grad(v))).assemble(basis, k=spread)
        source = np.zeros(matrix.shape[0])
        flow = []
        for where, film, air in surfaces:
            facets = skfem.FacetBasis(
                mesh, skfem.ElementTriP1(), facets=mesh.facets_satisfying(where, boundaries_only=True))
            film_matrix = skfem.BilinearForm(lambda u, v, w: u * v / film).assemble(facets)
            film_source = skfem.LinearForm(lambda v, w: air / film * v).assemble(facets)
            matrix, source = matrix + film_matrix, source + film_source
            if air == ROOM:
                flow.append((film_matrix, film_source))
        t = solve(matrix, source)
        heat = sum(b.sum() - (a @ t).sum() for a, b in flow)
        elapsed = time.perf_counter() - start
        print(f"scikit-fem: {heat} W/m", file=sys.stderr)
        print(f"scikit-fem {cells} {elapsed * 1e3:.4f}")


def table(file):
    times = {}
    for line in open(file):
        name, cells, milliseconds = line.split()
        times.setdefault((name, float(cells)), []).append(float(milliseconds))
    sizes = sorted({cells for _, cells in times})
    medians = {key: statistics.median(values) for key, values in times.items()}
    print("| solver | " + " | ".join(f"{size:.0e} cells" for size in sizes) + " |")
    print("|---" * (len(sizes) + 1) + "|")
    for name in ("ours", "faer", "cholmod", "pyamg", "whole", "scikit-fem"):
        base = "whole" if name in ("whole", "scikit-fem") else "ours"
        cells = []
        for size in sizes:
            if (name, size) not in medians:
                cells.append("–")
                continue
            ratio = medians[name, size] / medians[base, size]
            best = min(times[name, size]) / min(times[base, size])
            note = "" if name == base else f", {ratio:.1f} times ({best:.1f} by the best)"
            cells.append(f"{medians[name, size]:.3g} ms{note}")
        if any(cell != "–" for cell in cells):
            print(f"| {name} | " + " | ".join(cells) + " |")


if __name__ == "__main__":
    kind, *rest = sys.argv[1:]
    if kind == "table":
        table(rest[0])
    elif kind == "scikit-fem":
        whole(rest[0], int(rest[1]))
    else:
        on_matrix(kind, rest[0], rest[1], int(rest[2]))
