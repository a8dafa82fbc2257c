"""What can be typed, each command with examples that can be typed as they stand."""

from __future__ import annotations

import argparse
import os
from collections.abc import Callable
from typing import NoReturn

from surfacecheck.errors import SurfaceError

__all__ = ["called_as", "parser"]


def called_as() -> str:
    """Give how a person starts this program here, so that a printed hint can be typed."""
    return os.environ.get("SURFACECHECK_CALLED_AS") or "surfacecheck"


class _Parser(argparse.ArgumentParser):
    """A parser whose complaint is one line."""

    def error(self, message: str) -> NoReturn:
        """Leave with what is wrong and where help is."""
        told = f"{message}. Help: {self.prog} --help"
        raise SurfaceError(told)


def parser() -> argparse.ArgumentParser:
    """Describe the command line."""
    common = _Parser(add_help=False, allow_abbrev=False)
    common.add_argument("--units", choices=("metric", "inch"), default=argparse.SUPPRESS, help="units shown")
    common.add_argument("--json", action="store_true", default=argparse.SUPPRESS,
                        help='plain data instead of text: {"form": 1, ...}, SI units, every digit')  # fmt: skip
    strict = "exit code 1 when something is less than required, does not meet a rule, or depends"
    common.add_argument("--strict", action="store_true", default=argparse.SUPPRESS, help=strict)
    head = "Where the airload of a control surface goes, and what carries it. It checks, it does not approve."
    looks = argparse.RawDescriptionHelpFormatter
    epilog = _examples("check my.toml", "new my.toml")
    whole = _Parser(called_as(), description=head, parents=[common], epilog=epilog, formatter_class=looks)
    commands = whole.add_subparsers(dest="command", metavar="command", required=True)

    def command(name: str, does: str, *examples: str) -> argparse.ArgumentParser:
        one = commands.add_parser(name, help=does, description=does, parents=[common], formatter_class=looks,
                                  allow_abbrev=False)  # fmt: skip
        one.epilog = _examples(*examples)
        return one

    one = command("check", "loads, lowest margins, rules, balance; and a page", "check data/rudder.toml",
                  "check data/rudder_pitch_30.toml --units inch", "check my.toml --tables letter")  # fmt: skip
    one.add_argument("file", help="a surface file, or a change file")
    one.add_argument("--no-page", action="store_true", help="text only")
    one.add_argument("--earlier", metavar="PAGE", help="a page of this surface written before: says what changed since")
    one.add_argument("--tables", metavar="FOLDER", help="also write every table, as CSV and as text for a letter")
    one = command("new", "a file to start from, and a sheet to measure by", "new my.toml",
                  "new elevator.toml --kind elevator --half left --units inch --hinges 2")  # fmt: skip
    one.add_argument("file", help="file to write; one that is there stays as it is")
    one.add_argument("--kind", default="rudder", help="rudder, elevator or aileron")
    one.add_argument("--half", default="none", help="left or right, of an elevator or aileron")
    one.add_argument("--hinges", type=int, default=3, help="how many, 2 to 8; 3 where you do not say")
    one.add_argument("--ribs", type=int, default=5, help="how many, 2 to 40; 5 where you do not say")
    one.add_argument("--name", default="", help="your name for it")
    one = command("map", "every name, and the surface to scale on one sheet", "map data/rudder.toml",
                  "map my.toml --units inch")  # fmt: skip
    one.add_argument("file", help="a surface file, half-filled too, or a change file")
    places = ("1", "hinge.bottom.pin", "hinge.middle.bracket.rivet-3", "row.left_skin_to_spar", "balance")
    one = command("show", "how a number was worked", *(f"show data/rudder.toml {place}" for place in places))
    one.add_argument("file")
    one.add_argument("name", nargs="+", help="number in the list of the lowest, a name, or: pins, rules, gaps, balance")
    one = command("compare", "before and after", "compare data/rudder.toml data/rudder_pitch_30.toml")
    one.add_argument("file", help="the surface file")
    one.add_argument("change", nargs="+", help="change files, each laid over it by itself")
    one = command("happened", "asks what happened, one question at a time, and writes the change file",
                  "happened data/rudder.toml")  # fmt: skip
    one.add_argument("file", help="the surface file; the change file is written beside it, none is overwritten")
    one = command("deviation", "what happened, beside the drawing: here, anywhere, rules, balance, each option",
                  "deviation data/rudder.toml data/rudder_oversize_hole.toml",
                  "deviation data/rudder.toml data/rudder_oversize_hole.toml --all --units inch")  # fmt: skip
    _happened_files(one)
    one.add_argument("--all", action="store_true", help="also what is folded on the page: pins, lowest margins, whole")
    one.add_argument("--no-page", action="store_true", help="text only")
    one = command("query", "one page with one closed question for whoever decides, and as text for an e-mail",
                  "query data/rudder.toml data/rudder_oversize_hole.toml",
                  "query data/rudder.toml data/rudder_oversize_hole.toml --option 2")  # fmt: skip
    _happened_files(one)
    one.add_argument("--option", type=int, default=1, help="which option stands beside it, from 1; 0 for none")
    one.add_argument("--earlier", metavar="SHEET", help="an earlier sheet, its file or number: says what is new since")
    one = command("follow", "one force alone, from where it is put to the pins",
                  'follow data/rudder.toml --from "trailing edge, between rib 2 and 3" --load "100 N"',
                  'follow data/rudder.toml --from "spar, at 325 mm" --load "10 N m" --direction torque')  # fmt: skip
    one.add_argument("file", help="a surface file, or a change file; half-filled is enough")
    where = "trailing edge, spar or nose, then at rib 2, between rib 2 and 3, at 325 mm or at hinge top; hinge top;"
    one.add_argument("--from", dest="place", required=True, metavar="PLACE", help=f"{where} horn")
    one.add_argument("--load", required=True, help='with its unit: "100 N", "22 lbf"; of a torque "10 N m"')
    ways = "sideways, fore-and-aft, along or torque; or left, right, up, down, ahead, behind"
    one.add_argument("--direction", default="sideways", help=f"{ways}; of a flat half top, bottom, out, in")
    one.add_argument("--only", choices=("sideways", "fore-aft", "along", "torque"), default="",
                     help="show what that part of the loads inside does alone")  # fmt: skip
    one.add_argument("--no-page", action="store_true", help="text only")
    one = command("scatter", "how far making and measuring move each margin",
                  "scatter data/rudder.toml --samples 256",
                  'scatter data/rudder_tolerances.toml --samples 128 --tolerance "row.*.edge.*=0.3 mm"')  # fmt: skip
    one.add_argument("file", help="a surface file, a change file, or a file of tolerances that names one")
    one.add_argument("--tolerance", action="append", metavar="KEY=TEXT",
                     help='how far it may lie: "0.02 mm", "+1 mm -0 mm", "5 %% bell"; KEY may have *')  # fmt: skip
    one.add_argument("--samples", type=int, default=4096, help="how many; 4096 where you do not say")
    one.add_argument("--seed", type=int, default=1, help="the same seed, the same samples; 1 where you do not say")
    one.add_argument("--workers", type=int, default=1, help="processes that share the work; 1 where you do not say")
    one.add_argument("--table", metavar="FILE", help="also write each sample as a row: .csv, or .parquet")
    one.add_argument("--no-page", action="store_true", help="text only")
    one = command("row", "one rivet row on its own, without a file",
                  "row --pitch 25 30 --diameter 3.2 --sheet 0.5 --load-per-mm 4.8 --length 1060",
                  'row --pitch "1.25 in" --diameter 1/8 --sheet 0.020 --load-per-in 27 --units inch')  # fmt: skip
    bare = "mm, or in with --units inch; or with its unit in quotes"
    one.add_argument("--pitch", nargs="+", action="extend", required=True, help=f"one or more to compare; {bare}")
    one.add_argument("--diameter", required=True, help=f"of the rivet; {bare}")
    one.add_argument("--sheet", required=True, help=f"thickness under the head; {bare}")
    load = one.add_mutually_exclusive_group(required=True)
    load.add_argument("--load-per-mm", help="what a mm of row carries at limit (shear flow), N")
    load.add_argument("--load-per-in", help="what an inch of row carries at limit, lbf")
    one.add_argument("--length", help="first rivet to last; both stay, the rest spread evenly")
    one.add_argument("--drilled-at", help="pitch of holes that are there already")
    one.add_argument("--alloy", help="metal of the sheet, such as 2024-T3")
    one.add_argument("--shear", help="what one rivet carries, by its data sheet: N, or lbf with --units inch")
    one.add_argument("--edge", help="hole centre to the edge of the sheet")
    one.add_argument("--inner-sheet", help="thickness of the sheet behind")
    one = command("gone", "one gone at a time: hinge, rib, rivet; what the rest carries", "gone data/rudder.toml",
                  "gone data/rudder.toml --row left_skin_to_spar",
                  "gone data/rudder.toml --row left_skin_to_spar --out 12 13",
                  "gone data/rudder.toml --group hinge.middle.bracket --out 3")  # fmt: skip
    one.add_argument("file", help="a surface file, or a change file")
    which = one.add_mutually_exclusive_group()
    which.add_argument("--row", metavar="NAME", help="rivets of this row: each, and each pair, or those of --out")
    which.add_argument("--group", metavar="NAME", help="the same of a bracket, hinge.middle.bracket, or of the horn")
    one.add_argument("--out", nargs="+", action="extend", type=int, default=[], metavar="N",
                     help="numbers of rivets that are gone, as on the map")  # fmt: skip
    one.add_argument("--no-page", action="store_true", help="text only")
    one = command("thread", "pins off the line of the outer ones, and what binds", "thread data/rudder.toml",
                  'thread data/rudder.toml --sideways "5.0 mm" "5.8 mm" "5.0 mm" --gives "0.5 mm/kN"')  # fmt: skip
    one.add_argument("file", help="a surface file, or a change file")
    one.add_argument("--sideways", nargs="+", metavar="READ",
                     help="each pin's distance from a stretched thread, from root to tip, to the left (top where it"
                     " lies flat); what the file says where not given")  # fmt: skip
    one.add_argument(
        "--behind", nargs="+", metavar="READ", help='the same fore and aft; "0.3 mm ahead" for the other side'
    )
    one.add_argument("--gives", metavar="GIVE", help='fin and bracket spring at every hinge: "0.5 mm/kN"')
    one = command("rivets", "lists of pitch, rivet and more for rows of a surface, side by side",
                  "rivets data/rudder.toml --row left_skin_to_spar --pitch 20 25 30 40 --rivet small large",
                  'rivets data/rudder.toml --row trailing_edge --rivet "AD 1/8" "ISO 15977 H" --edge 6 7',
                  "rivets data/rudder_rivets.toml")  # fmt: skip
    one.add_argument("file", help="a surface file or a change file; or a small file with the rows and the lists")
    bare = "mm, or in where the file is in inches or with --units inch; or with its unit in quotes"
    one.add_argument("--row", action="append", metavar="NAME", help="a row of part E; again for several rows")
    one.add_argument("--pitch", nargs="+", help=f"from rivet to rivet; {bare}")
    one.add_argument("--count", nargs="+", help="rivets in a line instead; on each rib, for rows on the ribs")
    one.add_argument("--rivet", nargs="+", metavar="NAME",
                     help='of part D, of the shipped table ("AD 1/8"), or a family of it ("ISO 15977 H")')  # fmt: skip
    one.add_argument("--diameter", nargs="+", help="the same kind of rivet in these sizes")
    one.add_argument("--lines", nargs="+", help="lines side by side")
    one.add_argument("--head", nargs="+", help="protruding, countersunk, dimpled")
    one.add_argument("--edge", nargs="+", help="hole centre to edge, of every sheet of which it is given")
    one.add_argument("--sheet", nargs="+", help="thickness of the sheet under the head; the loads are worked again")
    one.add_argument("--drilled-at", help="pitch of holes that are there already: rivets can only be left out")
    one.add_argument("--minutes-hole", metavar="MIN", help="your minutes a hole: drill, deburr")
    one.add_argument("--minutes-rivet", metavar="MIN", help="your minutes a rivet: set, look")
    one.add_argument("--most", type=int, metavar="N", help="alternatives that may be worked; 100000 where not said")
    one.add_argument("--no-page", action="store_true", help="text only")
    one = command("mixed", "other or loose rivets in a row: how they share, in which order they carry",
                  'mixed data/rudder.toml --row left_skin_to_spar --at 11 13 15 --other large --slack "0.02 mm"',
                  "mixed data/elevator.toml --row top_skin_to_spar --at 12 14 16 --softer 3")  # fmt: skip
    one.add_argument("file", help="a surface file, or a change file")
    one.add_argument("--row", required=True, metavar="NAME", help="the row, as on the map")
    one.add_argument("--at", nargs="+", action="extend", type=int, required=True, metavar="N",
                     help="numbers of the unlike rivets")  # fmt: skip
    one.add_argument(
        "--other", default="", metavar="RIVET", help="their kind, a name of part D; the same where not given"
    )
    one.add_argument("--slack", help='slip before they carry, at most hole less shank: "0.05 mm"')
    one.add_argument("--softer", type=float, default=1.0, help="times softer than the formulas say, as hollow ones are")
    one.add_argument("--no-page", action="store_true", help="text only")
    _bench(command)
    one = command("weigh", "mass, balance, readings of a scale; and a sheet to weigh by", "weigh data/rudder.toml",
                  "weigh data/rudder.toml data/rudder_weighed.toml data/rudder_painted.toml",
                  "weigh my.toml --units inch")  # fmt: skip
    one.add_argument("file", help="a surface file, half-filled too, or a change file")
    one.add_argument("change", nargs="*", help="change files, each laid over it by itself: before and after")
    one.add_argument("--no-page", action="store_true", help="text only")
    one = command("aftermath", "what to look at first, after a storm or a surface forced past its stop",
                  'aftermath data/rudder.toml --wind "75 knots" --lock held',
                  'aftermath data/rudder.toml --wind "65 knots" --lock "let go" --swing "30 deg" --past-stop "3 deg"',
                  'aftermath my.toml --past-stop "4 deg"')  # fmt: skip
    one.add_argument("file", help="a surface file, or a change file; as it was before")
    one.add_argument("--wind", help='with its unit: "75 knots", "35 m/s"; the strongest that anybody knows of')
    one.add_argument("--lock", choices=("held", "let go", "none"), help="what the gust lock did; asked with --wind")
    one.add_argument("--swing", help='free swing before its stop, "30 deg"; from stop to stop where left out')
    one.add_argument("--past-stop", help='how far past its stop the end far from the horn went: "3 deg"')
    one.add_argument("--no-page", action="store_true", help="text only")
    return whole


def _bench(command: Callable[..., argparse.ArgumentParser]) -> None:
    """Describe the commands for the bench."""
    one = command("card", "what texts say of a rivet row: edge, pitch, grip, hole, access",
                  "card data/rudder.toml row.left_skin_to_spar", "card data/rudder.toml hinge top",
                  "card my.toml")  # fmt: skip
    one.add_argument("file", help="a surface file, half-filled too, or a change file")
    one.add_argument("row", nargs="*", help="a row, hinge or horn, by its name or in words; all where it is left out")
    one = command("takeoff", "rivets to buy, holes by station, drills, what can be set", "takeoff data/rudder.toml",
                  "takeoff data/rudder.toml --part spar", "takeoff my.toml --tables lists --spares 15")  # fmt: skip
    one.add_argument("file", help="a surface file, half-filled too, or a change file")
    one.add_argument("--part", default="", help="only the holes of one part: spar, left_skin, rib 3 in quotes")
    one.add_argument("--spares", metavar="PERCENT", help="rivets more than needed; 10 to 20 where you do not say")
    one.add_argument("--practice", type=int, metavar="N", help="of each size, for practice; 20 to 50")
    one.add_argument("--minutes-hole", metavar="MIN", help="your minutes a hole: drill, deburr")
    one.add_argument("--minutes-rivet", metavar="MIN", help="your minutes a rivet: set, look")
    one.add_argument("--tables", metavar="FOLDER", help="also write every table, as CSV and as text for a letter")
    one.add_argument("--no-page", action="store_true", help="text only")


def _happened_files(one: argparse.ArgumentParser) -> None:
    one.add_argument("file", help="the surface file, or a change file that says what happened")
    one.add_argument("change", nargs="*", help="change files that say what happened, laid over it together")


def _examples(*words: str) -> str:
    return "\n".join(["examples:", *(f"  {called_as()} {line}" for line in words), "", "exit codes: 0 done; 1 only with"
                      " --strict; 2 bad input; 3 this computer"])  # fmt: skip
