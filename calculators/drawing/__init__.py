"""Forms, results, charts and links: values in, HTML and SVG out. Knows no trade."""
