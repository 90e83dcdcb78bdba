#!/usr/bin/env bash
# Fetches jars into the user's cache, where a conformance test looks for them.
#   fetch-jars.sh NAME FOLDER WITNESS
# NAME is what people are told, FOLDER holds the pom.xml and names the place in the cache, WITNESS is a
# pattern of one jar that shows all are there. Needs Java and Maven; without them the test is skipped
# and says so.
set -u
name="$1" folder="$2" witness="$3"
jars="${XDG_CACHE_HOME:-$HOME/.cache}/castoff/$(basename "$folder")"
if compgen -G "$jars/$witness" >/dev/null; then exit 0; fi
if ! command -v java >/dev/null || ! command -v mvn >/dev/null; then
  echo "not installed: $name (needs java and mvn)"
  exit 0
fi
mkdir -p "$jars"
mvn -q -B -f "$folder/pom.xml" \
  org.apache.maven.plugins:maven-dependency-plugin:3.6.1:copy-dependencies \
  "-DoutputDirectory=$jars" >/dev/null 2>&1 || echo "could not install: $name"
