/* Times a sparse Cholesky factorisation (supernodal, minimum-degree ordering) of a crossbar's node equations.
   Usage: crossbar-direct FILE REPEATS. FILE holds, little-endian: int32 rows, columns; doubles: row and column segment
   conductances; junctions (row-major); end conductances left, right, top, bottom; right-hand side (row nodes, column
   nodes). Prints the best time of analysis, factorisation and solve, and the peak memory, as JSON. */
#include <cholmod.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec + 1e-9 * t.tv_nsec;
}

static double *doubles(FILE *f, size_t n) {
  double *x = malloc(n * sizeof *x);
  if (!x || fread(x, sizeof *x, n, f) != n) exit(1);
  return x;
}

int main(int argc, char **argv) {
  FILE *f = argc == 3 ? fopen(argv[1], "rb") : NULL;
  int size[2];
  if (!f || fread(size, sizeof *size, 2, f) != 2) return 1;
  const int m = size[0], n = size[1], cells = m * n;
  double *wire = doubles(f, 2), *g = doubles(f, cells);
  double *left = doubles(f, m), *right = doubles(f, m), *top = doubles(f, n), *bottom = doubles(f, n);
  double *b = doubles(f, 2 * (size_t)cells);
  fclose(f);

  cholmod_common c;
  cholmod_start(&c);
  c.supernodal = CHOLMOD_SUPERNODAL;
  c.nmethods = 1;
  c.method[0].ordering = CHOLMOD_AMD;
  cholmod_triplet *t = cholmod_allocate_triplet(2 * cells, 2 * cells, 5 * (size_t)cells, -1, CHOLMOD_REAL, &c);
  int *row = t->i, *column = t->j;
  double *x = t->x;
  size_t k = 0;
#define ENTRY(p, q, v) (row[k] = (p), column[k] = (q), x[k++] = (v))
  for (int i = 0; i < m; i++)
    for (int j = 0; j < n; j++) {
      const int u = i * n + j, w = cells + u;
      ENTRY(u, u, g[u] + (j > 0 ? wire[0] : left[i]) + (j < n - 1 ? wire[0] : right[i]));
      ENTRY(w, w, g[u] + (i > 0 ? wire[1] : top[j]) + (i < m - 1 ? wire[1] : bottom[j]));
      ENTRY(w, u, -g[u]);
      if (j < n - 1) ENTRY(u + 1, u, -wire[0]);
      if (i < m - 1) ENTRY(w + n, w, -wire[1]);
    }
  t->nnz = k;
  cholmod_sparse *a = cholmod_triplet_to_sparse(t, k, &c);
  cholmod_free_triplet(&t, &c);
  cholmod_dense *rhs = cholmod_zeros(2 * cells, 1, CHOLMOD_REAL, &c);
  memcpy(rhs->x, b, 2 * (size_t)cells * sizeof *b);

  double best = 1e99;
  for (int r = 0; r < atoi(argv[2]); r++) {
    const double from = now();
    cholmod_factor *l = cholmod_analyze(a, &c);
    cholmod_factorize(a, l, &c);
    cholmod_dense *solution = cholmod_solve(CHOLMOD_A, l, rhs, &c);
    const double took = now() - from;
    if (took < best) best = took;
    cholmod_free_factor(&l, &c);
    cholmod_free_dense(&solution, &c);
  }
  struct rusage usage;
  getrusage(RUSAGE_SELF, &usage);
  printf("{\"seconds\": %.6f, \"megabytes\": %.0f}\n", best, usage.ru_maxrss / 1024.0);
  return 0;
}
