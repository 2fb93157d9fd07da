"""`python -m harnessdoc`."""

from harnessdoc.cli import main

if __name__ == "__main__":
    main()
