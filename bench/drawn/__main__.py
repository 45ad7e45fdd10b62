"""Write the plates."""

from bench.drawn.plates import DRAWINGS, PLATES

if __name__ == "__main__":
    for name, draw in PLATES.items():
        (DRAWINGS / f"{name}.svg").write_text(draw().svg(), "utf-8")
