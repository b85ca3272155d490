"""Day sheet in its formats; prints facts and works nothing out."""
