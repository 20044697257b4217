#!/usr/bin/env bash
# What the tests need beside node and npm, from Debian's packages: a browser, a TeX, a scheduler. Needs root.
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
