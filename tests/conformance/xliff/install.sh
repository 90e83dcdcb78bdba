#!/usr/bin/env bash
# Fetches the Okapi library for XLIFF 2 into the user's cache, where the conformance test looks for it.
# Needs Java and Maven; without them the test is skipped and says so.
set -u
here="$(cd "$(dirname "$0")" && pwd)"
jars="${XDG_CACHE_HOME:-$HOME/.cache}/castoff/xliff"
if compgen -G "$jars/okapi-lib-xliff2-*.jar" >/dev/null; then exit 0; fi
if ! command -v java >/dev/null || ! command -v mvn >/dev/null; then
  echo "not installed: Okapi for XLIFF 2 (needs java and mvn)"
  exit 0
fi
mkdir -p "$jars"
mvn -q -B -f "$here/pom.xml" \
  org.apache.maven.plugins:maven-dependency-plugin:3.6.1:copy-dependencies \
  "-DoutputDirectory=$jars" >/dev/null 2>&1 || echo "could not install: Okapi for XLIFF 2"
