"""`python -m recommender` is the same as `borewright`."""

from recommender.cli.app import main

if __name__ == "__main__":
    main()
