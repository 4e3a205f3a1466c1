#!/bin/sh
# Puts the content policy into the page that trunk has just built. Release only: trunk's development aids are inline.
set -eu
[ "${TRUNK_PROFILE:-release}" = release ] || exit 0
page=${TRUNK_STAGING_DIR:-dist}/index.html
# Tables may come from any address that the person gives; everything else comes from the page's own folder.
policy="default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; connect-src 'self' https: http:; base-uri 'self'; form-action 'none'"
grep -q '<!-- policy -->' "$page" || { echo "no place for the policy in $page" >&2; exit 1; }
sed -i "s|<!-- policy -->|<meta http-equiv=\"Content-Security-Policy\" content=\"$policy\" />|" "$page"
