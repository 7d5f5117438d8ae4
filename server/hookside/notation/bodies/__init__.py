"""Fourth stage: the body of a course -> tokens -> the phrases that the grammar knows.

One body is one object, `phrases.Gatherer`. It is a chain of classes, a file a noun, each of which asks only those
before it: sight, nouns, reaches, loops, spots, known, every, places, repeats, counts, placed, layers, edges, bothends,
elsewhere, tails, gaps, shaping, listed, remarks, clauses, asides, brackets, signs, amounts, worded, stitching, words,
phrases. No name stands in two of them. `plain` takes the commonest bodies at a glance and leaves the rest to the chain;
`orders` keeps what is ordered in words that the chain passes over.
"""
