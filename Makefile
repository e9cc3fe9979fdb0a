# For developers. Everything lives in .venv and build/; a target that has run does nothing the next time.
PYTHON ?= $(shell for p in python3 python3.13 python3.12 python3.11 python; do \
	"$$p" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null && echo "$$p" && break; done)
VENV := .venv
BIN := $(VENV)/bin
PIP := $(BIN)/python -m pip install --disable-pip-version-check --quiet
STAMP := build/stamps

.PHONY: demo test coverage bench pictures lint format types contract lock clean

demo: $(STAMP)/run
	@$(BIN)/python tools/system_libraries.py
	@$(BIN)/halfthou demo
	@echo "  (in this clone, unless .venv is active:  $(BIN)/halfthou open halfthou-demo)"

# the order is cheapest first; pytest comes last so that its closing line is the last
test: $(STAMP)/dev
	@$(BIN)/python tools/system_libraries.py
	@$(BIN)/python tools/find_chromium.py --install
	@$(MAKE) --no-print-directory lint types contract
	@HALFTHOU_CHROMIUM="$$($(BIN)/python tools/find_chromium.py)" $(BIN)/python -m pytest

coverage: $(STAMP)/dev
	@HALFTHOU_CHROMIUM="$$($(BIN)/python tools/find_chromium.py)" $(BIN)/coverage run -m pytest
	@$(BIN)/coverage report

bench: $(STAMP)/dev
	@$(BIN)/python tools/system_libraries.py
	@$(BIN)/python -m bench

# what the documentation shows of a run: answers of commands, cards, pages
pictures: $(STAMP)/dev
	@$(BIN)/python tools/run_page.py README.md docs/first-part.md
	@HALFTHOU_CHROMIUM="$$($(BIN)/python tools/find_chromium.py)" $(BIN)/python -m tools.pictures

lint: $(STAMP)/dev
	@$(BIN)/ruff check
	@$(BIN)/ruff format --check

format: $(STAMP)/dev
	@$(BIN)/ruff check --fix
	@$(BIN)/ruff format

types: $(STAMP)/dev
	@$(BIN)/mypy

contract: $(STAMP)/dev
	@$(BIN)/lint-imports

# needs `uv` on the path; writes the exact versions and their hashes
LOCK := uv pip compile --quiet --universal --python-version 3.11 --generate-hashes \
	--no-emit-index-url --custom-compile-command "make lock"
lock:
	echo 'setuptools>=77' | $(LOCK) - --output-file requirements/build.txt
	$(LOCK) pyproject.toml --output-file requirements/run.txt
	$(LOCK) pyproject.toml --extra dev --output-file requirements/dev.txt

clean:
	rm -rf $(VENV) build dist src/*.egg-info .coverage
	rm -rf .mypy_cache .ruff_cache .pytest_cache .hypothesis .import_linter_cache

$(STAMP)/venv:
	@test -n "$(PYTHON)" || { echo "halfthou needs Python 3.11 or newer: none found on the path"; exit 1; }
	@$(PYTHON) -c 'import ensurepip, venv' 2>/dev/null || { \
		echo "this Python cannot make a virtual environment: on Debian, apt-get install python3-venv"; exit 1; }
	@test -x $(BIN)/python || $(PYTHON) -m venv $(VENV)
	@mkdir -p $(STAMP) && touch $@

$(STAMP)/run: $(STAMP)/venv requirements/build.txt requirements/run.txt pyproject.toml
	@echo "installing what halfthou runs on (once; about a minute)"
	@$(PIP) --require-hashes -r requirements/build.txt
	@$(PIP) --require-hashes -r requirements/run.txt
	@$(PIP) --no-deps --no-build-isolation -e .
	@touch $@

$(STAMP)/dev: $(STAMP)/run requirements/dev.txt
	@echo "installing what the tests run on (once)"
	@$(PIP) --require-hashes -r requirements/dev.txt
	@touch $@
