/* kernels FOLDER RUNS: the property and conductance kernels on tables.bin and states.bin; prints CPU times [ms] as JSON and
   writes c-output.bin. tables.bin: minimum, maximum, then four tables as number of intervals and four coefficients each.
   states.bin: count, kind (0 counter-current, 1 one shell with two tube passes), then six columns. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double *load(const char *folder, const char *name, size_t *count) {
  char path[4096];
  snprintf(path, sizeof path, "%s/%s", folder, name);
  FILE *file = fopen(path, "rb");
  if (!file) { perror(path); exit(1); }
  fseek(file, 0, SEEK_END);
  *count = (size_t)ftell(file) / sizeof(double);
  rewind(file);
  double *values = malloc(*count * sizeof(double));
  if (fread(values, sizeof(double), *count, file) != *count) exit(1);
  fclose(file);
  return values;
}

static double now(void) {
  struct timespec at;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &at);
  return at.tv_sec * 1e3 + at.tv_nsec / 1e6;
}

static void property(const double *table, double minimum, double maximum, const double *t, double *out, size_t n) {
  double intervals = table[0];
  double per_degree = intervals / (maximum - minimum);
  long last = (long)intervals - 1;
  for (size_t i = 0; i < n; i++) {
    if (!(t[i] >= minimum && t[i] <= maximum)) { out[i] = NAN; continue; }
    double position = (t[i] - minimum) * per_degree;
    long k = (long)position;
    if (k > last) k = last;
    double x = position - (double)k;
    const double *c = table + 1 + 4 * k;
    out[i] = c[0] + x * (c[1] + x * (c[2] + x * c[3]));
  }
}

static double counter_ntu(double effectiveness, double ratio) {
  double gap = 1 - ratio;
  double driven = effectiveness / (1 - effectiveness);
  return gap == 0 ? driven : log1p(driven * gap) / gap;
}

static double shell_ntu(double effectiveness, double ratio) {
  double root = sqrt(1 + ratio * ratio);
  return log1p((2 * root * effectiveness) / (2 - effectiveness * (1 + ratio + root))) / root;
}

static double lmtd(double a, double b) {
  if (!(a >= 0 && b >= 0)) return NAN;
  double small = a < b ? a : b;
  if (small == 0) return 0;
  double difference = (a < b ? b : a) - small;
  return difference == 0 ? small : difference / log1p(difference / small);
}

static void conductance(int kind, double **s, double *out, size_t n) {
  for (size_t i = 0; i < n; i++) {
    double duty = s[4][i] * 4180.0 * (s[0][i] - s[1][i]);
    double hot = duty / (s[0][i] - s[1][i]), cold = duty / (s[3][i] - s[2][i]);
    double smallest = hot <= cold ? hot : cold, ratio = smallest / (hot <= cold ? cold : hot);
    double reached = duty / (smallest * (s[0][i] - s[2][i]));
    double counter = counter_ntu(reached, ratio);
    double ntu = kind == 0 ? counter : shell_ntu(reached, ratio);
    out[i] = ntu;
    out[n + i] = ntu * smallest;
    out[2 * n + i] = lmtd(s[0][i] - s[3][i], s[1][i] - s[2][i]);
    out[3 * n + i] = counter / ntu;
  }
}

static int ascending(const void *a, const void *b) {
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

int main(int argc, char **argv) {
  if (argc < 3) return 1;
  int runs = atoi(argv[2]);
  size_t count;
  double *tables = load(argv[1], "tables.bin", &count), *states = load(argv[1], "states.bin", &count);
  size_t n = (size_t)states[0];
  double *s[6], *out = malloc(8 * n * sizeof(double)), *of_properties = malloc(runs * sizeof(double)),
                *of_conductance = malloc(runs * sizeof(double));
  for (int k = 0; k < 6; k++) s[k] = states + 2 + k * n;
  for (int run = 0; run < runs; run++) {
    double began = now();
    const double *table = tables + 2;
    for (int k = 0; k < 4; k++) {
      property(table, tables[0], tables[1], s[0], out + k * n, n);
      table += 1 + 4 * (size_t)table[0];
    }
    of_properties[run] = now() - began;
    began = now();
    conductance((int)states[1], s, out + 4 * n, n);
    of_conductance[run] = now() - began;
  }
  qsort(of_properties, runs, sizeof(double), ascending);
  qsort(of_conductance, runs, sizeof(double), ascending);
  char path[4096];
  snprintf(path, sizeof path, "%s/c-output.bin", argv[1]);
  FILE *file = fopen(path, "wb");
  fwrite(out, sizeof(double), 8 * n, file);
  fclose(file);
  printf("{\"properties\": %f, \"conductance\": %f}\n", of_properties[runs / 2], of_conductance[runs / 2]);
  return 0;
}
