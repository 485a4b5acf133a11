# Leanmark: set-up, demo and checks. Needs make, and Python 3.11 to 3.13 with pip; all else is installed
# into .venv from the lock files. Another interpreter: make test PYTHON=python3.12
PYTHON ?=
export PYTHON
BIN := .venv/bin
GROUND := pyproject.toml requirements/install.sh src/leanmark/__init__.py
LOCK := uv pip compile --quiet --universal --python-version 3.11 --generate-hashes --no-header --no-annotate
UPGRADE ?=

# One line per step; a step that fails shows all that its command printed.
step = @printf '%-8s %s: ' '$(1)' '$(2)'; \
	if said=$$($(BIN)/$(3) 2>&1); then echo ok; else echo failed; printf '%s\n' "$$said"; exit 1; fi

.PHONY: help demo test docs format lock clean
.DEFAULT_GOAL := help

help:
	@echo 'make demo    install what the workbench needs, print the cards of the demo squad and plan its winter'
	@echo 'make test    install the developer set as well and run every check'
	@echo 'make docs    run the checks of the documentation alone'
	@echo 'make format  lay out every file and mend what the linter can mend'
	@echo 'make lock    write the lock files anew (UPGRADE=--upgrade takes newer releases; needs uv)'
	@echo 'make clean   remove .venv, build and the caches'

demo: .venv/default.stamp
	@echo 'cards    solving the moves of demo/squad.toml for each trainee'
	@$(BIN)/leanmark cards demo/squad.toml --out build/demo
	@echo 'cycle    planning eight weeks for each trainee, then drawing the sheets: about a minute'
	@$(BIN)/leanmark cycle build demo/squad.toml --out build/demo/cycle --today 2026-11-23
	@echo 'next     open build/demo/cycle/overview.pdf, the sheets in build/demo/cycle/sessions, the tapes in'
	@echo '         build/demo/cycle/tapes.pdf, and the cards in build/demo/squad-cards.pdf; then copy'
	@echo '         demo/squad.toml, put in your rig and trainees, and run'
	@echo '         .venv/bin/leanmark cycle build YOUR.toml --out build/cycle; docs/how-to.md has more'

test: export OPENBLAS_NUM_THREADS = 1
test: .venv/dev.stamp
	$(call step,format,each file is laid out alike,ruff format --check .)
	$(call step,lint,no known slip,ruff check .)
	$(call step,types,mypy --strict on src,mypy)
	$(call step,layers,imports run from ground to roof,lint-imports)
	@echo 'docs     links, words and every printed command'
	@$(BIN)/pytest tests/docs
	@echo 'tests    the rest, on every core, warnings as errors'
	@$(BIN)/pytest -n auto --ignore=tests/docs
	@echo 'next     all checks passed; CONTRIBUTING.md tells how to add to the project'

docs: .venv/dev.stamp
	@$(BIN)/pytest tests/docs

format: .venv/dev.stamp
	@$(BIN)/ruff check --quiet --fix . ; $(BIN)/ruff format .

lock:
	$(LOCK) $(UPGRADE) --extra dev --group build pyproject.toml -o requirements/dev.lock
	$(LOCK) --group build -c requirements/dev.lock pyproject.toml -o requirements/default.lock

clean:
	rm -rf .venv build dist .mypy_cache .pytest_cache .ruff_cache .hypothesis .import_linter_cache

.venv/default.stamp: requirements/default.lock $(GROUND)
	@sh requirements/install.sh default
	@touch $@

.venv/dev.stamp: requirements/dev.lock .venv/default.stamp
	@sh requirements/install.sh dev
	@touch $@
