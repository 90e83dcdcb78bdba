#!/usr/bin/env bash
# Installs the outside judges of the conformance tests: poppler and qpdf read the PDFs, veraPDF judges
# their claims, Chromium shows the desk, an S3 server keeps what is released, Okapi reads what goes to
# translators. Each is optional; what is missing is reported by the tests that wanted it.
set -u
need=()
command -v pdftotext >/dev/null || need+=(poppler-utils)
command -v qpdf >/dev/null || need+=(qpdf)
command -v chromium >/dev/null || command -v google-chrome >/dev/null || need+=(chromium)
if [ "${#need[@]}" -gt 0 ]; then
  if [ "$(id -u)" = 0 ] && command -v apt-get >/dev/null; then
    apt-get update -qq >/dev/null 2>&1
    apt-get install -y -qq "${need[@]}" >/dev/null 2>&1 || echo "could not install: ${need[*]}"
  else
    echo "not installed: ${need[*]} (needs apt-get and root)"
  fi
fi

here="$(cd "$(dirname "$0")" && pwd)"
bash "$here/fetch-jars.sh" veraPDF "$here/verapdf" 'validation-model-*.jar'
bash "$here/s3/install.sh"
bash "$here/fetch-jars.sh" 'Okapi for XLIFF 2' "$here/xliff" 'okapi-lib-xliff2-*.jar'
