# Two commands are all a fresh machine needs (Python 3.11+, Node 20+):
#   make serve   builds, migrates, starts on SQLite with a demo job, prints the address and a join code
#   make test    installs what it needs, a browser too, and runs everything
# The small steps below are what those two are made of.

SHELL := /bin/bash
.SHELLFLAGS := -eu -o pipefail -c
.DEFAULT_GOAL := help
PYTHON ?= python3
BIN := .venv/bin
AGAIN := --reruns 1 --only-rerun "Target crashed"  # a tab of Chromium may end itself: done again then, and only then
ONE_AT_ONCE := --no-print-directory --jobs=1
TWO_AT_ONCE := --no-print-directory --jobs=2 --output-sync=target  # steps of one process each, one on each core
SAY = @printf '\n== %s\n'
WEB_SOURCES := $(shell find web/src web/public web/build server/evenbed/engine -type f -not -name '*.pyc' 2>/dev/null) \
	$(wildcard web/*.json web/*.ts web/*.html)

unit faults parity deep: export OPENBLAS_NUM_THREADS := 1  # small matrices: more threads only wait for each other
unexport PYTHONDONTWRITEBYTECODE  # what one process has compiled the next one need not

.PHONY: help serve test installed quick check check-python check-web lint-web types-web unit faults web parity browser pictures bench deep lock clean

help:
	@grep -E '^#' Makefile | sed 's/^# \{0,1\}//'

serve: .venv/.serve web/dist/.built
	$(SAY) "Starting the service with the demo job"
	$(BIN)/evenbed serve --demo --new-code

test:
	@$(MAKE) $(TWO_AT_ONCE) installed
	@$(MAKE) $(TWO_AT_ONCE) quick
	@$(MAKE) $(ONE_AT_ONCE) unit faults browser bench
	$(SAY) "Everything ran"

installed: .venv/.test web/dist/.built

quick: parity lint-web web types-web check-python  # the longest first

check: check-python check-web

check-python: .venv/.test
	$(SAY) "Lint, format, strict types, import rules of the service and the tests"
	$(BIN)/ruff check server tests migrations deploy
	$(BIN)/ruff format --check server tests migrations deploy
	$(BIN)/mypy
	$(BIN)/lint-imports

check-web: lint-web types-web

lint-web: web/node_modules/.installed
	$(SAY) "Lint, import rules of the phone app"
	cd web && npm run --silent lint

types-web: .venv/.test web/node_modules/.installed
	$(SAY) "Strict types of the phone app, and those made from the service's description"
	cd web && npm run --silent types && npm run --silent wire:check

unit: .venv/.test web/node_modules/.installed
	$(SAY) "Engine, published values, sync, store, service"
	tests/postgres/install-postgres.sh
	$(BIN)/python -m pytest -n 2 --dist worksteal -m "not browser and not pyodide" --ignore tests/faults --ignore tests/machine

faults: .venv/.test web/node_modules/.installed
	$(SAY) "Phones and services through whatever can go wrong"
	tests/postgres/install-postgres.sh
	$(BIN)/python -m pytest -n 3 --dist loadfile -m "not browser" tests/faults tests/machine

web: web/node_modules/.installed
	$(SAY) "The phone's own code"
	cd web && npm run --silent test

parity: .venv/.test web/node_modules/.installed
	$(SAY) "The engine in CPython and in the phone's Python"
	$(BIN)/python -m pytest -m pyodide tests/engine

browser: .venv/.test web/dist/.built
	$(SAY) "The whole job in a real browser"
	tests/browser/install-browser.sh
	$(BIN)/python -m pytest -m browser -n 2 --dist loadfile --no-loadscope-reorder $(AGAIN) \
		tests/faults tests/browser

pictures: export EVENBED_PICTURES := kept
pictures: browser

bench: .venv/.test web/dist/.built tests/benchmarks/rival/node_modules/.installed
	$(SAY) "Benchmarks"
	tests/postgres/install-postgres.sh
	tests/browser/install-browser.sh
	$(BIN)/python -m tests.benchmarks

deep: .venv/.test web/dist/.built tests/benchmarks/rival/node_modules/.installed
	$(SAY) "The long runs"
	tests/postgres/install-postgres.sh
	tests/browser/install-browser.sh
	EVENBED_FAULT_SECONDS=60 EVENBED_POSTGRES_PUSHES=200 EVENBED_MACHINE_RUNS=150 EVENBED_SLIP_ROUNDS=300 EVENBED_FLOORS=500 \
		$(BIN)/python -m pytest -m deep -s
	EVENBED_SHARE=1 $(BIN)/python -m pytest -n 2 --dist worksteal \
		-m "not browser and not pyodide and not deep" --ignore tests/faults --ignore tests/machine
	EVENBED_SHARE=1 $(BIN)/python -m pytest -m pyodide tests/engine
	$(BIN)/python -m tests.benchmarks --large

lock: .venv/.test
	$(SAY) "Locking versions with hashes and without addresses"
	$(BIN)/uv pip compile --universal --python-version 3.11 --generate-hashes --no-header --no-annotate \
		pyproject.toml --group build -o deploy/requirements.txt -q
	$(BIN)/uv pip compile --universal --python-version 3.11 --generate-hashes --no-header --no-annotate \
		-c deploy/requirements.txt pyproject.toml --group test -o tests/requirements.txt -q
	cd web && npm install --package-lock-only --no-audit --no-fund && node build/bare_lock.mjs

clean:
	rm -rf .venv web/node_modules web/dist out .mypy_cache .ruff_cache .hypothesis

.venv/bin/python:
	$(SAY) "Making a Python environment"
	$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11) and "Evenbed needs Python 3.11 or newer")'
	$(PYTHON) -m venv .venv

.venv/.serve: .venv/bin/python deploy/requirements.txt pyproject.toml
	$(SAY) "Installing the service (locked, with hashes)"
	$(BIN)/pip install --quiet --disable-pip-version-check --require-hashes -r deploy/requirements.txt
	$(BIN)/pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

.venv/.test: .venv/.serve tests/requirements.txt
	$(SAY) "Installing what the tests need (locked, with hashes)"
	$(BIN)/pip install --quiet --disable-pip-version-check --require-hashes --no-compile -r tests/requirements.txt  # most of it is never imported
	@touch $@

web/node_modules/.installed: web/package.json web/package-lock.json
	$(SAY) "Installing what the phone app is built with (locked, with hashes)"
	@node -e 'if (+process.versions.node.split(".")[0] < 20) { console.error("Evenbed needs Node 20 or newer"); process.exit(1) }'
	cd web && npm ci --no-audit --no-fund --loglevel=error
	@touch $@

tests/benchmarks/rival/node_modules/.installed: tests/benchmarks/rival/package.json tests/benchmarks/rival/package-lock.json
	$(SAY) "Installing the rival of the benchmarks (locked, with hashes); without it its figure is left out"
	cd tests/benchmarks/rival && npm ci --ignore-scripts --no-audit --no-fund --loglevel=error && touch node_modules/.installed || echo "PouchDB does not install here"

web/dist/.built: web/node_modules/.installed $(WEB_SOURCES)
	$(SAY) "Building the phone app"
	cd web && npm run --silent build
	@touch $@
