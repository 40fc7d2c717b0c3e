"""Own themes: black on white for glare, white on black for dawn and dark. No meaning by colour alone."""

from textual.theme import Theme

SUN = Theme(
    name="sun",
    primary="#00417a",
    secondary="#3d3d3d",
    accent="#7a2e00",
    warning="#7a2e00",
    error="#8c0012",
    success="#005a2b",
    foreground="#000000",
    background="#ffffff",
    surface="#ffffff",
    panel="#e6e6e6",
    dark=False,
    variables={"text-alpha": "1.0", "footer-background": "#000000"},
)
NIGHT = Theme(
    name="night",
    primary="#8ec7ff",
    secondary="#c8c8c8",
    accent="#ffb86b",
    warning="#ffb86b",
    error="#ff9aa2",
    success="#8ee6ad",
    foreground="#ffffff",
    background="#000000",
    surface="#000000",
    panel="#262626",
    dark=True,
)
