# The way in. `make run` opens the main job with the embedded demo; `make test` proves it.
PYTHON ?= python3
VENV   := .venv
BIN    := $(VENV)/bin
PORT   ?= 8737

.PHONY: run test check fix bench bench-full lock demo clean help system-packages

help:            ## what can be made
	@grep -hE '^[a-z-]+:.*##' Makefile | sed -E 's/:.*## /\t/' | expand -t 18

$(BIN)/python:
	@$(PYTHON) -c 'import sys; sys.exit(0 if sys.version_info >= (3, 11) else "Roundwright needs Python 3.11 or newer.")'
	@$(PYTHON) -m venv $(VENV) || { rm -rf $(VENV); sh tools/system_packages.sh python3-venv && $(PYTHON) -m venv $(VENV); }

$(VENV)/.run: requirements/run.txt pyproject.toml | $(BIN)/python
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/run.txt
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps --no-build-isolation -e .
	@touch $@

$(VENV)/.test: requirements/test.txt $(VENV)/.run
	@$(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements/test.txt
	@touch $@

run: $(VENV)/.run   ## set up, open the coach's pages: Tern Quay Hall first, your own house from there
	@$(BIN)/roundwright house --port $(PORT) $(RUN_OPTIONS)

system-packages:
	@sh tools/system_packages.sh chromium postgresql

test: $(VENV)/.test system-packages check   ## set up, check the code, pass every test
	@$(BIN)/python -m pytest -q -n 2 --dist loadfile

check: $(VENV)/.test   ## format, lint, types, import contracts
	@$(BIN)/ruff format --check --quiet .
	@$(BIN)/ruff check --quiet .
	@$(BIN)/mypy --no-error-summary
	@$(BIN)/lint-imports --no-cache > $(VENV)/imports.txt 2>&1 || { cat $(VENV)/imports.txt; exit 1; }

fix: $(VENV)/.test   ## format and mend what can be mended
	@$(BIN)/ruff format --quiet .
	@$(BIN)/ruff check --fix .

bench: $(VENV)/.test   ## benchmarks, at most 20 minutes
	@$(BIN)/python -m benchmarks.run

bench-full: $(VENV)/.test   ## the long benchmarks
	@$(BIN)/python -m benchmarks.run --full

lock:            ## pin the dependencies anew (needs uv)
	uv pip compile --quiet --universal --generate-hashes --no-header --no-annotate --python-version 3.11 pyproject.toml requirements/build.in -o requirements/run.txt
	uv pip compile --quiet --universal --generate-hashes --no-header --no-annotate --python-version 3.11 --extra test -c requirements/run.txt pyproject.toml requirements/build.in -o requirements/test.txt

clean:           ## forget the virtual environment and caches
	rm -rf $(VENV) .mypy_cache .ruff_cache .pytest_cache .hypothesis
