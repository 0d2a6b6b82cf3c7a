"""What a reader sees of widgets."""


def is_away(widget):
    """Tell whether a widget is out of sight."""
    return "vorlib-away" in widget._dom_classes
