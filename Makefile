# What the tests ask for a second opinion, all from Debian.
REFEREES = unzip poppler-utils mupdf-tools ghostscript librsvg2-bin qpdf geos-bin cups-ppdc libcups2 chromium python3-ezdxf
STATICCHECK = honnef.co/go/tools/cmd/staticcheck@v0.8.2
NFPM = github.com/goreleaser/nfpm/v2/cmd/nfpm@v2.43.4

# What is stamped on packages, and when everything in them was made.
VERSION = $(shell git describe --tags --always --dirty)
SOURCE_DATE_EPOCH ?= $(shell git log -1 --format=%ct)

.PHONY: build test bench load lint fuzz cross dist dist-check pictures referees

build:
	go build -o underflap ./cmd/underflap

# Runs every test. Installs the referees through apt where it can; without
# them their checks are skipped, except in CI, where they fail.
test: referees
	go test -count=1 -timeout 30m ./...

# Every figure in one table, as ratios of one run. Previews are many already, and so
# are the sheets that memory is asked of; what makes whole occasions runs on one core
# and on two.
bench:
	@{ go test -run '^$$' -bench . -skip '^Benchmark(Preview|Occasion)' -benchtime 3x -timeout 30m ./... 2>&1; \
	go test -run '^$$' -bench '^Benchmark(Preview|OccasionMemory)' -benchtime 1x ./liner/request ./liner/occasion 2>&1; \
	go test -run '^$$' -bench '^BenchmarkOccasion$$' -benchtime 3x -cpu 1,2 ./liner/occasion 2>&1; } | go run ./cmd/figures

# Ten thousand previews asked of the page's server in a process of its own.
load:
	UNDERFLAP_LOAD=10000 go test -count=1 -timeout 60m -v -run TestTheDeskBearsALoad ./cmd/underflap/desk

# Packages for every system in dist, with SHA256SUMS; the same commit gives the same bytes.
dist:
	rm -rf dist
	go run ./cmd/shipping -version $(VERSION) -epoch $(SOURCE_DATE_EPOCH) -nfpm $(NFPM) -into dist

# Makes the packages twice and compares them; then asks Debian's programs about them.
dist-check: dist
	cd dist && sha256sum -c --quiet SHA256SUMS
	again=$$(mktemp -d) && go run ./cmd/shipping -version $(VERSION) -epoch $(SOURCE_DATE_EPOCH) -nfpm $(NFPM) -into $$again && diff -r dist $$again && rm -r $$again
	for deb in dist/*.deb; do dpkg-deb --info $$deb && dpkg-deb --contents $$deb || exit 1; done
	if command -v lintian >/dev/null; then lintian --fail-on error --suppress-tags statically-linked-binary,bogus-mail-host,bogus-mail-host-in-debian-changelog dist/*.deb; fi

# Fuzzes every target for a while, one after another; what is found lies in
# testdata/fuzz beside the target. make fuzz FUZZTIME=10m
FUZZTIME = 20s
fuzz:
	.ci/fuzz $(FUZZTIME)

# Builds the program for the other systems it is made for, and vets it, tests and
# all, on each system and kind of processor once.
cross:
	@set -e; for target in windows/amd64 windows/arm64 darwin/amd64 darwin/arm64 linux/arm64 linux/386; do echo "cross $$target"; \
	export GOOS=$${target%/*} GOARCH=$${target#*/} CGO_ENABLED=0; go build -o /dev/null ./cmd/underflap; \
	case $$target in windows/amd64|darwin/arm64|linux/386) go vet ./...;; esac; done

lint:
	@unformatted=$$(gofmt -l .); if [ -n "$$unformatted" ]; then echo "gofmt: $$unformatted"; exit 1; fi
	go vet ./...
	go run $(STATICCHECK) ./...

# Draws the README's pictures again. That of the desk is what Chromium shows, and
# no test compares it.
pictures:
	go run ./cmd/underflap sheet --dpi 80 -o testdata/pictures/sheet.png
	go run ./cmd/underflap sheet --paper 170x160 --printer-margin 4 --per-sheet 1 --pattern scallops --palette barn-lantern --dpi 72 -o testdata/pictures/scallops.png
	go run ./cmd/underflap sheet --paper 170x160 --printer-margin 4 --per-sheet 1 --pattern stripes --palette rowan-jelly --flap square --dpi 72 -o testdata/pictures/stripes.png
	go run ./cmd/underflap sheet --paper 170x160 --printer-margin 4 --per-sheet 1 --pattern leaves --set inks=1,2,3,5 --palette envelope:kraft --dpi 72 -o testdata/pictures/kraft.png
	go run ./cmd/underflap sheet --paper 170x160 --printer-margin 4 --per-sheet 1 --pattern confetti --set inks=1,2,3,5 --palette 'neighbours:#f0b54c' --flap square --dpi 72 -o testdata/pictures/neighbours.png
	go run ./cmd/underflap sheet --envelope c7 --per-sheet most --pattern scallops --palette hop-garden --dpi 80 -o testdata/pictures/nested.png
	go run ./cmd/underflap swatch --paper 190x240 --dpi 110 -o testdata/pictures/patterns.png
	go run ./cmd/underflap swatch --palettes --paper 190x240 --dpi 110 -o testdata/pictures/palettes.png
	go run ./cmd/underflap look --pattern leaves --palette rowan-jelly --envelope-colour '#d8b98a' --dpi 90 -o testdata/pictures/look.png
	go run ./cmd/underflap sheet --pattern leaves --palette hop-garden --ink-saver 25 --dpi 72 -o testdata/pictures/saver.png
	go run ./cmd/underflap look --pattern leaves --palette hop-garden --paper-colour tan --envelope-colour '#8a5a3c' --dpi 72 -o testdata/pictures/tan.png
	go run ./cmd/underflap look --patterns petals,plaid --palettes barn-lantern,hop-garden,orchard-table,rowan-jelly,stubble-field --envelope-colour white --table '#5b6b5f' --dpi 72 -o testdata/pictures/compare.png
	go run ./cmd/underflap look --explain --three --dpi 110 -o testdata/pictures/measure.png
	go run ./cmd/underflap look --steps --dpi 115 -o testdata/pictures/steps.png
	go run ./cmd/underflap look --troubles --dpi 115 -o testdata/pictures/troubles.png
	for flap in pointed square rounded contour; do go run ./cmd/underflap look --flap $$flap --flap-depth 60 --pattern leaves --palette hop-garden --envelope-colour kraft --dpi 72 -o testdata/pictures/flap-$$flap.png || exit 1; done
	go run ./cmd/underflap ruler --dpi 72 -o testdata/pictures/ruler.png
	go run ./cmd/underflap fold --handmade four-corner --card a6 --from 210x210 --dpi 80 -o testdata/pictures/fold.png >/dev/null && \
	mv testdata/pictures/fold-1.png testdata/pictures/fold.png && rm testdata/pictures/fold-2.png
	go run ./cmd/underflap sheet --registration all --pattern petals --palette hop-garden --dpi 72 -o testdata/pictures/machine.png
	UNDERFLAP_PICTURES=$(CURDIR)/testdata/pictures go test -count=1 -run 'TestREADMEPictureShowsTheIndex$$$$' ./liner/occasion
	d=$$(mktemp -d) && UNDERFLAP_SHOTS=$$d go test -count=1 -run 'TestChoosing$$$$' ./cmd/underflap/desk && mv $$d/desk.png testdata/pictures/desk.png && rm -r $$d

referees:
	@missing=; for p in unzip pdftoppm mutool gs rsvg-convert qpdf geosop chromium; do command -v $$p >/dev/null || missing="$$missing $$p"; done; \
	[ -f /usr/lib/python3/dist-packages/ezdxf/__init__.py ] || missing="$$missing ezdxf"; \
	[ -f /usr/share/cups/ppdc/media.defs ] || missing="$$missing media.defs"; \
	ls /usr/lib/*/libcups.so.2 >/dev/null 2>&1 || missing="$$missing libcups"; \
	if [ -z "$$missing" ]; then exit 0; fi; \
	install="apt-get update -qq && DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $(REFEREES) >/dev/null"; \
	if ! command -v apt-get >/dev/null; then false; \
	elif [ "$$(id -u)" = 0 ]; then sh -c "$$install"; \
	elif sudo -n true 2>/dev/null; then sudo sh -c "$$install"; \
	else false; fi || \
	echo "Missing and not installed here:$$missing. Their checks are skipped. On Debian: sudo apt-get install $(REFEREES)"
