#!/bin/sh
# A spreadsheet program of other people opens what we write and saves it, and what it saves is the same table: the demo table and the
# workbook to begin with, as .xlsx and as .ods. Needs `soffice` (Debian: libreoffice-calc).
set -eu
command -v soffice >/dev/null || { echo "soffice is not there: apt-get install --no-install-recommends libreoffice-calc" >&2; exit 1; }
cargo build --quiet --release --bin pairwright
pairwright="${CARGO_TARGET_DIR:-target}/release/pairwright"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

save() { # save FILE AS FOLDER
  soffice --headless "-env:UserInstallation=file://$work/profile" --convert-to "$2" --outdir "$work/$3" "$1" >/dev/null 2>&1
}

"$pairwright" convert public/table/demo.json "$work/demo.xlsx"
cp public/table/workbook.xlsx "$work/workbook.xlsx"
for name in demo workbook; do
  save "$work/$name.xlsx" xlsx xlsx
  save "$work/$name.xlsx" ods ods
  save "$work/ods/$name.ods" xlsx back
  "$pairwright" convert "$work/$name.xlsx" "$work/$name.json"
  for saved in "xlsx/$name.xlsx" "ods/$name.ods" "back/$name.xlsx"; do
    "$pairwright" convert "$work/$saved" "$work/again.json"
    cmp "$work/$name.json" "$work/again.json"
    echo "$saved: the same table"
  done
done
