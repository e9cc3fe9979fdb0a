"""Operations, ways of holding, rules of order, the solver, the judge, the explanation."""
