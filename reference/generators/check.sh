#!/usr/bin/env bash
# Generates every table anew in a temporary folder and compares it with the committed one.
#
#   reference/generators/check.sh           makes an environment with the pinned versions first
#   PYTHON=path/to/python …/check.sh        takes one that has them already
#
# Exit code 75 says that the check could not be made; the last line gives the reason.
set -uo pipefail
here="$(cd "$(dirname "${BASH_SOURCE[0]}")" && pwd)"

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export PYTHONDONTWRITEBYTECODE=1

cannot() { # reason
  echo "$1"
  exit 75
}

python=${PYTHON:-}
if [ -z "$python" ]; then
  command -v python3 >/dev/null || cannot "python3 is not here"
  python3 -m venv "$work/environment" || cannot "python3 cannot make an environment (Debian: python3-venv)"
  python="$work/environment/bin/python"
  "$python" -m pip install --quiet --disable-pip-version-check -r "$here/requirements.txt" ||
    cannot "the pinned libraries cannot be installed here"
fi

mkdir "$work/fresh"
for name in closed_forms atmosphere air_properties losses effectiveness_ntu fin_efficiency fin_duct fin_core oil \
  network_crosscheck network_halves path_cases full_path split_deck drag population; do
  echo "Generating with $name.py"
  "$python" "$here/$name.py" "$work/fresh" || exit 1
done
"$python" "$here/compare.py" "$here/.." "$work/fresh"
