# Every target sets up what it needs: Python 3.11 or newer, make and pip are enough to begin with.
PYTHON ?= python3
PORT ?= 8000
HOST ?= 127.0.0.1
RUN := .venv/bin/python
NODE := .venv/bin/node
NPM := .venv/bin/npm
UV := uv==0.13.9
export PYTHONDONTWRITEBYTECODE ?= 1

# Two at a time; the types take longest, so they begin.
CHECKS := types style imports spelling prose scripts workers scripts-style

.PHONY: help prove serve build release book house papers as-of wall test rest check bench fuzz mutants audit pins clean chromium $(CHECKS:%=check-%)
.DELETE_ON_ERROR:

help:
	@echo "make serve    the site on this machine, built again after each change (PORT=8000 HOST=127.0.0.1 SHARED=folder)"
	@echo "make build    the site in site/, as it should be published (SITE_URL=https://... PUBLISHED=folder)"
	@echo "make release  the site as one archive in release/, with its checksum (SITE_URL=https://...)"
	@echo "make book     the whole handbook as one PDF, steep-to-kiln.pdf"
	@echo "make house    this house's own file: asks and writes it (DO=check, DO=looked)"
	@echo "make papers   keeps each paper of this house as it is approved now; make as-of DAY=2026-05-31 puts out what held"
	@echo "make wall     each procedure on one page for the wall, A4 and A3, in wall/ (SITE_URL=https://... is where codes lead)"
	@echo "make test     every check: style, types, spelling, prose, and the tests, in a real browser too"
	@echo "make rest     what make test leaves: the rest of cases that are alike, and ways that are long; .ci/run makes both"
	@echo "make check    the quick part of it: style, types, spelling, prose"
	@echo "make bench    how long a reader waits, how much is carried, how often readiness is called right"
	@echo "make fuzz     random and hostile input at length, in both Pythons; every draw of the tests, and the long ones"
	@echo "make prove    compares the small engine with both Pythons, and writes which sheets start on it (SHEETS=...)"
	@echo "make mutants  small changes in formulas and rules that no test sees (MOST=150)"
	@echo "make audit    known weaknesses of what we depend on (asks the network)"
	@echo "make pins     pin the newest versions of what we depend on"

serve: .venv/site.stamp
	@$(RUN) -m site_src serve --host $(HOST) --port $(PORT) $(if $(SHARED),--shared "$(SHARED)")

build: .venv/site.stamp
	$(RUN) -m site_src build $(if $(PUBLISHED),--published $(PUBLISHED))

release: .venv/site.stamp
	$(RUN) -m site_src release

book: .venv/site.stamp chromium
	$(RUN) -m site_src book

house: .venv/site.stamp
	@$(RUN) -m site_src house $(DO)

papers: .venv/site.stamp
	@$(RUN) -m site_src papers

as-of: .venv/site.stamp
	@$(RUN) -m site_src as-of $(DAY) $(if $(GIT),--git)

wall: .venv/site.stamp chromium
	$(RUN) -m site_src wall

# What is compiled once is read by all processes of the tests and by every Python that they start.
test rest fuzz bench prove: export PYTHONDONTWRITEBYTECODE =
# Three at a time on two cores: one or another waits for a page, a camera or a disk. Where tests failed, and only there, those
# are tried once more: all of them, for of those alone no part is drawn.
TESTS = $(RUN) -m pytest --cache-clear -n 3 --dist loadscope --no-loadscope-reorder --durations=25 || \
	{ ended=$$?; [ $$ended = 1 ] || exit $$ended; \
	echo "Once more, alone on the machine: what failed"; \
	CASES= $(RUN) -m pytest --last-failed --last-failed-no-failures none; }
test: check chromium
	CASES=part $(TESTS)

rest: .venv/test.stamp node_modules/.stamp chromium
	CASES=rest $(TESTS)

check: .venv/test.stamp node_modules/.stamp
	@$(MAKE) --no-print-directory --jobs=2 --output-sync=target $(CHECKS:%=check-%)

check-types:
	$(RUN) -m mypy
check-style:
	$(RUN) -m ruff check
check-imports:
	.venv/bin/lint-imports
check-spelling:
	$(RUN) -m codespell_lib
check-prose:
	$(RUN) -m site_src.prose
check-scripts:
	$(NODE) node_modules/typescript/bin/tsc -p tsconfig.json
check-workers:
	$(NODE) node_modules/typescript/bin/tsc -p tsconfig.workers.json
check-scripts-style:
	$(NODE) node_modules/eslint/bin/eslint.js .

bench: .venv/test.stamp chromium
	$(RUN) -m bench

fuzz: .venv/test.stamp node_modules/.stamp chromium
	$(RUN) -m tests.fuzz
	DRAWN=all $(RUN) -m pytest -n 2 --dist loadscope -m "drawn or long"

prove: .venv/test.stamp
	$(RUN) -m site_src.small prove $(SHEETS)

mutants: .venv/test.stamp
	$(RUN) -m tests.mutants $(if $(MOST),--most $(MOST))

audit: .venv/audit/stamp
	.venv/audit/bin/python -m pip_audit --require-hashes --disable-pip --format json -r requirements-test.txt \
		| $(RUN) -m site_src.audit

pins: .venv/pins/stamp .venv/test.stamp
	.venv/pins/bin/uv pip compile $(PIN) --extra site -o requirements.txt
	.venv/pins/bin/uv pip compile $(PIN) --extra site --extra test -o requirements-test.txt
	.venv/pins/bin/uv pip compile $(PIN) --extra audit -o requirements-audit.txt
	$(NPM) install --save-dev --save-exact $(SCRIPT_TOOLS:%=%@latest)
SCRIPT_TOOLS := @eslint/js eslint globals typescript
PIN := pyproject.toml --quiet --upgrade --universal --python-version 3.11 --generate-hashes \
	--no-header --no-annotate --no-emit-index-url --no-emit-find-links --no-emit-options

clean:
	rm -rf site site.new site.old node_modules .cache .mypy_cache .ruff_cache .pytest_cache .hypothesis

.venv/bin/python:
	@$(PYTHON) -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
		{ echo "Python 3.11 or newer is needed. Name one: make PYTHON=python3.12 ..."; exit 1; }
	@$(PYTHON) -m venv .venv || \
		{ rm -rf .venv; echo "Python cannot make a virtual environment. On Debian: apt-get install python3-venv"; exit 1; }

.venv/site.stamp: requirements.txt | .venv/bin/python
	$(RUN) -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements.txt
	@touch $@

# Not compiled at once: of what only tests use, most is never read.
.venv/test.stamp: requirements-test.txt .venv/site.stamp
	$(RUN) -m pip install --quiet --no-compile --disable-pip-version-check --require-hashes -r requirements-test.txt
	@touch $@

# What checks the scripts: Node and its npm come by pip, the rest as package-lock.json pins it.
node_modules/.stamp: package-lock.json .npmrc .venv/test.stamp
	$(NPM) ci --silent
	@touch $@

.venv/audit/stamp: requirements-audit.txt | .venv/bin/python
	$(RUN) -m venv .venv/audit
	.venv/audit/bin/python -m pip install --quiet --disable-pip-version-check --require-hashes -r requirements-audit.txt
	@touch $@

.venv/pins/stamp: | .venv/bin/python
	$(RUN) -m venv .venv/pins
	.venv/pins/bin/python -m pip install --quiet --disable-pip-version-check "$(UV)"
	@touch $@

# The browser of the tests is Debian's: whole for what a device keeps, the one without windows for the many short visits.
# Beside it: a browser of another make, what reads a printed page back, letters as wide as a printer's, and two web servers.
# What is missing is installed when we are allowed to. Only the browser has to be there.
PROGRAMS := chromium chromium-headless-shell pdftotext firefox-esr nginx apache2
PACKAGES := chromium chromium-headless-shell poppler-utils fonts-liberation firefox-esr nginx-light apache2-bin
chromium:
	@for program in $(PROGRAMS); do command -v $$program >/dev/null || missing=yes; done; \
	ls /usr/share/fonts/truetype/liberation* >/dev/null 2>&1 || missing=yes; \
	[ -z "$$missing" ] || { \
		if [ "$$(id -u)" = 0 ]; then sudo=; elif command -v sudo >/dev/null && sudo -n true 2>/dev/null; then sudo=sudo; \
		elif command -v chromium >/dev/null; then echo "Without these, some checks are left out: $(PACKAGES)"; exit 0; \
		else echo "The tests need the browser chromium. As an administrator: apt-get install $(PACKAGES)"; exit 1; fi; \
		echo "Installing what the tests need: $(PACKAGES)"; \
		$$sudo apt-get update -qq; \
		for package in $(PACKAGES); do \
			$$sudo env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $$package || \
				[ $$package != chromium ] || exit 1; \
		done; }
