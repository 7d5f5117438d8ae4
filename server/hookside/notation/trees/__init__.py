"""Fifth stage: phrases -> a tree of what is worked, in which double meanings stay as alternatives."""
