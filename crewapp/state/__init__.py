"""What the screens show: frozen values and pure functions, without Kivy."""
