"""Results to words, figures and pictures: the one place for rounding, inch and mm, wording."""
