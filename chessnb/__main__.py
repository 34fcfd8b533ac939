"""``python -m chessnb``: the command line."""

from chessnb.cli import main

if __name__ == "__main__":
    main()
