"""The program ``fanblock``: its commands, and the one place where errors become words and exit codes.

Exit codes: 0 fine, 1 the input or the result is at fault, 2 a wrong command line, 3 a fault of our own,
130 interrupted.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence

import click

from fanblock.cli.adopt import adopt
from fanblock.cli.arguments import Commands, NoCommandError
from fanblock.cli.block import block
from fanblock.cli.bug import bug_report
from fanblock.cli.check import check
from fanblock.cli.compare import compare
from fanblock.cli.demo import demo
from fanblock.cli.draft import draft
from fanblock.cli.explain import explain
from fanblock.cli.fit import fit
from fanblock.cli.new import new
from fanblock.cli.problems import tell_problems
from fanblock.cli.prove import prove
from fanblock.cli.recipes import recipes
from fanblock.cli.screen import prepare, say_document, settle, tell
from fanblock.cli.wearers import wearers
from fanblock.problems import FanblockError, Problem
from fanblock.version import __version__

FINE, AT_FAULT, WRONG_COMMAND, OUR_BUG, INTERRUPTED = 0, 1, 2, 3, 130


@click.group(
    cls=Commands,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Begin with `fanblock demo`. It draws stays for an invented wearer and tells you what to open.",
)
@click.version_option(__version__, "--version", prog_name="fanblock", message="%(prog)s %(version)s")
def program() -> None:
    """Draw a sewing pattern for one body from its tape measures.

    Three tape measures make a block, the flat base of one body. A recipe turns the block into stays, a
    bodice or a jacket of about 1500-1830, at true scale, on paper a home printer takes, with proof that the
    pieces add up and sew together. Whether it fits, only a toile tells.
    """


for _command in (demo, new, draft, fit, compare, adopt, recipes, explain, check, prove, wearers, block):
    program.add_command(_command)


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the program and return its exit code; ``arguments`` are those of the command line without its first."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    prepare()
    code = _run(given, "--json" in given)
    return code if settle() else max(code, AT_FAULT)


def _run(given: list[str], machine: bool) -> int:
    try:
        code = program.main(args=given, prog_name="fanblock", standalone_mode=False)
        return code if isinstance(code, int) else FINE
    except NoCommandError as nothing:
        tell(nothing.message)
        return WRONG_COMMAND
    except click.ClickException as wrong:
        _tell_usage(wrong, machine)
        return WRONG_COMMAND
    except FanblockError as error:
        tell_problems(error, machine)
        return AT_FAULT
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else FINE
    except (click.Abort, KeyboardInterrupt):
        tell("Stopped. Nothing was half written.")
        return INTERRUPTED
    except Exception as error:
        _tell_bug(error, given, machine)
        return OUR_BUG


def _tell_usage(wrong: click.ClickException, machine: bool) -> None:
    says = wrong.format_message()
    context = wrong.ctx if isinstance(wrong, click.UsageError) else None
    command = context.command_path if context is not None else "fanblock"
    remedy = f"See `{command} --help`."
    if machine:
        tell_problems(FanblockError([Problem("usage", "command line", says, remedy)]), machine)
    else:
        usage = f"{context.get_usage()}\n" if context is not None else ""
        tell(f"{usage}{says} {remedy}")


def _tell_bug(error: Exception, given: Sequence[str], machine: bool) -> None:
    words = [*program.commands, *(word for group in (new,) for word in group.commands)]
    if machine:
        says = "fanblock met a fault of its own; the report is on standard error."
        problem = Problem("bug", "", says, "Please report it.")
        say_document({"problems": [{"code": problem.code, "where": "", "what": says, "remedy": problem.remedy,
                                    "file": None, "line": None, "column": None}]})  # fmt: skip
    tell(bug_report(error, given, words))
