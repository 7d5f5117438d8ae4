"""A text's own key, in every form: a list, a line, a sentence, among other matter."""
