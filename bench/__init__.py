"""Every benchmark of the project: ``make bench`` writes ``build/bench.json``.

A file of this folder registers its figures with :func:`bench.figures.figure`; ``__main__`` runs
all of them.
"""
