"""Tables, cells and forms, in whichever way they are pasted -> "label: body = count", a line for each course."""
