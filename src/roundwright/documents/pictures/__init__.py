"""Pictures of a class as SVG, each with its figures as a table: ink on paper, hatched."""
