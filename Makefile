# Targets for people and for CI; `make help` prints them.
# PYTHON may name any Python from 3.11 on: make test PYTHON=python3.12
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
OUT := out/demo
# of `make nightly`: how many roofs, and how many of each kind to leave out before them, so that each night has others
ROOFS := 3000
AFTER := 0

.PHONY: help demo serve test nightly check screens bench docs clean

help: ## say what each target does
	@grep -hE '^[a-z]+:.*## ' $(MAKEFILE_LIST) | sed -E 's/:.*## /\t/' | expand -t 12

$(VENV)/tools: requirements.txt pyproject.toml
	@$(PYTHON) -c 'import sys; sys.exit(0 if sys.version_info >= (3, 11) else "Lapwright needs Python 3.11 or newer; name one with: make PYTHON=python3.12")'
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -r requirements.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --no-deps -e .
	$(BIN)/python -m compileall -q src
	@touch $@

$(VENV)/dev: $(VENV)/tools requirements-dev.txt
	$(BIN)/python -m pip install --quiet --disable-pip-version-check -r requirements-dev.txt
	@touch $@

# The browser that the workspace is tried in: Debian's own, put in where root and apt allow; elsewhere those tests skip.
$(VENV)/browser: $(VENV)/dev
	@command -v chromium >/dev/null 2>&1 || { test "$$(id -u)" = 0 && command -v apt-get >/dev/null 2>&1 \
	  && apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq chromium; } >/dev/null 2>&1 \
	  || echo "no chromium here: tests in a browser will skip"
	@touch $@

demo: $(VENV)/tools ## plan the example job and show where the packet is
	@rm -rf out/example && $(BIN)/lapwright example out/example
	@$(BIN)/lapwright plan out/example/millrace.yaml --out $(OUT); status=$$?; test $$status -le 1
	@echo "The packet is $(OUT)/packet.pdf; the other files are beside it."

serve: $(VENV)/tools ## the workspace in a browser, over the example job in out/example; Ctrl+C ends it
	@test -d out/example || $(BIN)/lapwright example out/example
	$(BIN)/lapwright serve out/example

test: $(VENV)/browser ## run the tests
	$(BIN)/python -m pytest -n 2 --dist loadgroup

nightly: $(VENV)/dev ## thousands of random roofs and inputs, others than the tests have; about an hour on two free cores
	$(BIN)/python tools/night_roofs.py --roofs $(ROOFS) --after $(AFTER)
	HYPOTHESIS_PROFILE=nightly $(BIN)/python -m pytest -n 2 --dist loadgroup tests/properties tests/geometry tests/units tests/roof

check: $(VENV)/dev ## format, lint, types
	$(BIN)/ruff format --check src tests tools benchmarks
	$(BIN)/ruff check src tests tools benchmarks
	$(BIN)/mypy

screens: $(VENV)/browser ## every page of the example's packet, and every sheet of the workspace in each look, as pictures
	$(BIN)/python tools/screens.py out/screens
	$(BIN)/python tools/workspace_screens.py out/screens/workspace

bench: $(VENV)/browser ## cold starts, the roll clock, the layout beside its bounds and CP-SAT, growth, memory: printed, in minutes
	$(BIN)/python benchmarks/run.py
	$(BIN)/python benchmarks/rollclock.py
	$(BIN)/python benchmarks/table.py --quick
	$(BIN)/python benchmarks/hours.py
	$(BIN)/python benchmarks/structure.py
	$(BIN)/python benchmarks/workspace.py

docs: $(VENV)/dev ## write the made pages of docs/ anew
	$(BIN)/python tools/make_job_docs.py
	$(BIN)/python tools/make_plan_schema.py
	$(BIN)/python tools/make_command_docs.py
	$(BIN)/python tools/make_check_docs.py

clean: ## remove what the targets made
	rm -rf $(VENV) out build dist .pytest_cache .hypothesis .mypy_cache .ruff_cache
