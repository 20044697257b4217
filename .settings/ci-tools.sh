#!/usr/bin/env bash
# What the tests need beside node and npm: a browser, a TeX, a scheduler from Debian's packages, which needs root; other
# versions of node from npm.
set -euo pipefail

missing=()
need() {
  command -v "$1" >/dev/null || missing+=("${@:2}")
}
need chromium chromium fonts-dejavu-core
need pdflatex texlive-latex-base texlive-latex-recommended texlive-science
need slurmctld slurm-wlm munge

if [ ${#missing[@]} -gt 0 ]; then
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq
  apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
fi

engines=${TENFOLD_ENGINES:-${TMPDIR:-/tmp}/tenfold-engines}
if [ ! -x "$engines/node_modules/node24/bin/node" ]; then
  mkdir -p "$engines"
  npm install --silent --no-audit --no-fund --no-save --no-package-lock --prefix "$engines" \
    node20@npm:node@20.20.2 node22@npm:node@22.23.3 node24@npm:node@24.9.0
fi
