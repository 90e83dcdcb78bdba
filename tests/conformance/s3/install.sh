#!/usr/bin/env bash
# An S3 server that is not ours, for the conformance tests: MinIO, built from its source at one commit by
# the Go tool chain into the cache folder of this user, once. It passed 38 of 42 probes of the protocol
# (conditional puts, checksums, signatures, signed forms, versions all among them), more than any other
# that was tried; moto passed 34 and refuses no wrong signature or checksum. Where there is no Go, moto
# serves if Python is there; else the tests say that they were skipped.
set -u
version=v0.0.0-20260212201848-7aac2a2c5b7c
folder=${XDG_CACHE_HOME:-$HOME/.cache}/castoff
server=$folder/minio-$version

if [ ! -x "$server" ] && command -v go >/dev/null; then
  mkdir -p "$folder/building"
  # Three minutes of processor time; given up after ten by the clock, for moto serves as well.
  if CGO_ENABLED=0 GOBIN=$folder/building GOFLAGS=-trimpath \
    timeout "${CASTOFF_INSTALL_SECONDS:-600}" go install "github.com/minio/minio@$version" >/dev/null 2>&1; then
    mv "$folder/building/minio" "$server"
  else
    echo "could not build: minio"
  fi
fi
if [ ! -x "$server" ] && ! command -v moto_server >/dev/null && command -v pip >/dev/null; then
  pip install --quiet 'moto[server]==5.2.1' >/dev/null 2>&1 || echo "could not install: moto"
fi
[ -x "$server" ] || command -v moto_server >/dev/null || echo "no S3 server: its tests are skipped"
