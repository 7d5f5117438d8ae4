"""Second stage: the page's lines, each with its role -> pieces and courses whose bodies are still unread."""
