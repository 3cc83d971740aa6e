"""The command `boltside`: new, check, lay, build, paper, chapters, samples, serve."""

from __future__ import annotations

import argparse
import signal
import sys
import threading
from collections.abc import Sequence
from pathlib import Path

from boltside import __version__
from boltside.errors import BoltsideError, ProblemsFound

EXIT_FINE = 0
EXIT_PROBLEMS = 1
EXIT_INTERRUPTED = 130
NEW = "Make a folder for a new shop, with one small pattern that works."


class NoShopHere(BoltsideError):
    """A command was given where no shop, or no built one, is."""


def parser() -> argparse.ArgumentParser:
    """The command line: one word says what to do."""
    top = argparse.ArgumentParser(prog="boltside", description="A sewing pattern shop computed from the outlines.")
    top.add_argument("--version", action="version", version=f"boltside {__version__}")
    commands = top.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(name: str, text: str) -> argparse.ArgumentParser:
        added = commands.add_parser(name, help=text, description=text)
        added.add_argument("--shop", type=Path, default=Path(), help="the shop's folder (where mkdocs.yml is)")
        return added

    new = commands.add_parser("new", help=NEW, description=NEW)
    new.add_argument("folder", type=Path, help="the shop's folder, which is made; it must not be there yet")
    new.add_argument("--label", default=None, help="the shop's name (made from the folder's name)")

    check = command("check", "Read every pattern and list all problems at once; changes nothing.")
    check.add_argument("patterns", nargs="*", help="only these patterns")

    lay = command("lay", "Find the lays that are missing; can be interrupted and goes on where it stopped.")
    lay.add_argument("patterns", nargs="*", help="only these patterns")
    lay.add_argument("--jobs", type=int, default=None, help="how many at once (all cores)")
    lay.add_argument("--everyday", action="store_true", help="few lays, quickly made, for a first shop")
    lay.add_argument("--draft", action="store_true", help="quick, longer lays; a build marks them")
    lay.add_argument("--verify", action="store_true", help="check every stored lay against the outlines; solve nothing")

    build = command("build", "Make the shop, whole or not at all.")
    build.add_argument("--site", type=Path, default=None, help="where to put it (default: site)")

    paper = command("paper", "Write the paper guide (PDF) of any size and options; needs the extra `paper`.")
    paper.add_argument("pattern", help="which pattern")
    paper.add_argument("--size", default=None, help="the size (that in which its page opens)")
    paper.add_argument("--choices", default="", metavar="A=B,…", help="options, as in sleeves=long,collar=flat")
    paper.add_argument("--units", choices=("cm", "inch"), default="cm", help="centimetres, or inches and yards")
    paper.add_argument("--out", type=Path, default=None, help="the file (PATTERN-SIZE.pdf here)")

    chapters = command("chapters", "Write the chapters (WebVTT) of a pattern's films, for any size and options.")
    chapters.add_argument("pattern", help="which pattern")
    chapters.add_argument("--size", default=None, help="the size (that in which its page opens)")
    chapters.add_argument("--choices", default="", metavar="A=B,…", help="options, as in sleeves=long,collar=flat")
    chapters.add_argument("--out", type=Path, default=Path("."), metavar="FOLDER", help="where to put them (here)")

    samples = command("samples", "Tell which garments to sew and film so that every step and pair of options is shown.")
    samples.add_argument("pattern", help="which pattern")
    samples.add_argument("--csv", type=Path, default=None, metavar="FILE", help="write the list as a table too")
    samples.add_argument("--longer", action="store_true", help="search for minutes, where fewer may do")

    serve = command("serve", "Show the shop on this computer, and show it anew whenever a file changes.")
    serve.add_argument("--port", type=int, default=None, help="the port on this computer")
    serve.add_argument("--no-drafts", action="store_true", help="make no draft lays where lays are missing")
    serve.add_argument("--no-build", action="store_true", help="show what `boltside build` made, just as it is")
    serve.add_argument("--site", type=Path, default=None, help="with --no-build: where that is (default: site)")
    return top


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status: 0 fine, 1 problems (all printed), 130 interrupted."""
    options = parser().parse_args(arguments)
    run = {"new": run_new, "check": run_check, "lay": run_lay, "build": run_build, "paper": run_paper,
           "chapters": run_chapters, "samples": run_samples, "serve": run_serve}  # fmt: skip
    try:
        return run[options.command](options)
    except ProblemsFound as found:
        for problem in found.problems:
            print(problem.told, file=sys.stderr)
        print(f"\n{counted(found)}; nothing was written.", file=sys.stderr)
        return EXIT_PROBLEMS
    except BoltsideError as error:
        print(error, file=sys.stderr)
        return EXIT_PROBLEMS
    except KeyboardInterrupt:
        print("\nStopped. What was finished is kept.", file=sys.stderr)
        return EXIT_INTERRUPTED


def count_of(number: int, noun: str, nouns: str | None = None) -> str:
    """`1 problem`, `2 problems`; `nouns` where it takes more than an s."""
    return f"{number} {noun if number == 1 else nouns or noun + 's'}"


def counted(found: ProblemsFound) -> str:
    """How many errors there are, and how many warnings and pieces of advice beside them."""
    severities = [problem.severity for problem in found.problems]
    errors = severities.count("error")
    beside = len(severities) - errors
    hints = f" (and {count_of(beside, 'warning or hint', 'warnings or hints')})" if beside else ""
    return count_of(errors, "problem") + hints


def shop_of(options: argparse.Namespace) -> Path:
    """The shop's folder, where there is one. Raises: NoShopHere."""
    shop: Path = options.shop
    if not (shop / "data").is_dir():
        raise NoShopHere(
            f"there is no shop in {shop.resolve()}: it has no folder `data`. Go to your shop's folder first, "
            "or name it with --shop FOLDER, or make a new one with: boltside new my-shop"
        )
    return shop


def config_of(shop: Path) -> Path:
    """The file with the shop's settings. Raises: NoShopHere."""
    config = shop / "mkdocs.yml"
    if not config.is_file():
        raise NoShopHere(
            f"{config} is not there; it holds the shop's settings. `boltside new` makes one that can be copied."
        )
    return config


def run_new(options: argparse.Namespace) -> int:
    """Make a shop's folder with one small pattern that works."""
    from boltside.new.make import make_shop

    folder = make_shop(options.folder, label=options.label)
    print(f"The shop is in {folder}. Go there and look at it:\n\n  cd {shown_folder(folder)}\n  boltside serve\n")
    print(f"What to do in the first half hour stands in {folder / 'README.md'}.")
    return EXIT_FINE


def shown_folder(folder: Path) -> str:
    """The folder as it can be typed behind `cd`."""
    text = str(folder)
    return f'"{text}"' if " " in text else text


def run_check(options: argparse.Namespace) -> int:
    """Read everything, measure everything in every size, say what was found."""
    from boltside.check import check_patterns

    for line in check_patterns(shop_of(options) / "data", only=options.patterns):
        print(line)
    return EXIT_FINE


def run_lay(options: argparse.Namespace) -> int:
    """Solve what is missing, or verify what is stored."""
    from boltside.laying import lay_patterns, verify_patterns

    data_dir = shop_of(options) / "data"
    if options.verify:
        return EXIT_FINE if verify_patterns(data_dir, only=options.patterns, say=print) else EXIT_PROBLEMS
    done = lay_patterns(
        data_dir,
        only=options.patterns,
        jobs=options.jobs,
        draft=options.draft,
        everyday=options.everyday,
        say=print,
    )
    return EXIT_FINE if done else EXIT_PROBLEMS


def run_build(options: argparse.Namespace) -> int:
    """Build aside, swap whole."""
    from boltside.paper.shop_guides import why_none
    from boltside.publish import publish

    place = publish(config_of(shop_of(options)), options.site or options.shop / "site")
    if why_none():
        print(why_none())
    print(f"The shop is in {place}{'' if str(place).endswith('/') else '/'}")
    return EXIT_FINE


def run_paper(options: argparse.Namespace) -> int:
    """Write one paper guide."""
    from boltside.paper.command import write_guide

    place = write_guide(
        shop_of(options) / "data",
        options.pattern,
        size=options.size,
        choices=options.choices,
        unit=options.units,
        out=options.out,
    )
    print(f"The paper guide is in {place}")
    return EXIT_FINE


def run_chapters(options: argparse.Namespace) -> int:
    """Write the chapters of one set."""
    from boltside.chapters import write_chapters

    places = write_chapters(
        shop_of(options) / "data", options.pattern, size=options.size, choices=options.choices, folder=options.out
    )
    print("\n".join(f"Chapters are in {place}" for place in places))
    return EXIT_FINE


def run_samples(options: argparse.Namespace) -> int:
    """Tell the plan of samples."""
    from boltside.samples.command import tell_samples

    said = tell_samples(shop_of(options) / "data", options.pattern, longer=options.longer, table=options.csv)
    print(said, end="")
    return EXIT_FINE


def run_serve(options: argparse.Namespace) -> int:
    """Show the shop on loopback until interrupted: live, or as it was built."""
    shop = shop_of(options)
    # Asked to end by the system it ends as after Ctrl-C, its helpers too.
    signal.signal(signal.SIGTERM, signal.default_int_handler)
    if not options.no_build:
        from boltside.serve.live import say_at_once, serve_shop

        config_of(shop)
        serve_shop(
            shop, port=options.port, with_drafts=not options.no_drafts, say=say_at_once, stop=threading.Event()
        )
        return EXIT_FINE
    from boltside.serve.server import open_server

    site_dir = options.site or shop / "site"
    if not (site_dir / "index.html").is_file():
        raise NoShopHere(f"there is no built shop in {site_dir}; make it with: boltside build")
    with open_server(site_dir, options.port) as server:
        host, port = server.server_address[:2]
        print(f"The shop is at http://{host!s}:{port}/   (stop with Ctrl-C)", flush=True)
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            print("\nClosed.")
    return EXIT_FINE


if __name__ == "__main__":
    sys.exit(main())
