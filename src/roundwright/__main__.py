"""Run the commands as ``python -m roundwright``."""

from roundwright.cli.main import run

if __name__ == "__main__":
    run()
