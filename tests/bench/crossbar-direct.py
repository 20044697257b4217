"""Times scipy's sparse LU on a crossbar's node equations: the file and the output of crossbar-direct.c."""
import json, resource, sys, time
import numpy as np
import scipy.sparse as sp
from scipy.sparse.linalg import spsolve

with open(sys.argv[1], "rb") as file:
    m, n = np.fromfile(file, np.int32, 2)
    gr, gc = np.fromfile(file, np.float64, 2)
    g = np.fromfile(file, np.float64, m * n).reshape(m, n)
    left, right = np.fromfile(file, np.float64, m), np.fromfile(file, np.float64, m)
    top, bottom = np.fromfile(file, np.float64, n), np.fromfile(file, np.float64, n)
    b = np.fromfile(file, np.float64, 2 * m * n)
u = np.arange(m * n).reshape(m, n)
w = u + m * n
du, dw = g.copy(), g.copy()
du[:, 1:] += gr; du[:, :-1] += gr; du[:, 0] += left; du[:, -1] += right
dw[1:, :] += gc; dw[:-1, :] += gc; dw[0, :] += top; dw[-1, :] += bottom
p = [u, w, u, u[:, 1:], w[1:, :]]
q = [u, w, w, u[:, :-1], w[:-1, :]]
v = [du, dw, -g, np.full((m, n - 1), -gr), np.full((m - 1, n), -gc)]
p, q, v = (np.concatenate([x.ravel() for x in part]) for part in (p, q, v))
off = p != q
a = sp.csc_matrix((np.r_[v, v[off]], (np.r_[p, q[off]], np.r_[q, p[off]])), shape=(2 * m * n,) * 2)
best = 1e99
for _ in range(int(sys.argv[2])):
    start = time.perf_counter()
    spsolve(a, b, permc_spec="MMD_AT_PLUS_A")
    best = min(best, time.perf_counter() - start)
print(json.dumps({"seconds": best, "megabytes": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024}))
