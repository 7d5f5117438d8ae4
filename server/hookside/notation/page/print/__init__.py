"""What print, a typesetter, a scan or a web page does to a page: signs, markup, ends of lines, columns."""
