"""`python -m planbuild` is the same as `planbuild`."""

from planbuild.cli import main

main()
