from vorlib.commands.assignment import *  # noqa: F403  # what assignments handed out import
