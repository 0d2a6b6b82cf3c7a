"""The caution that stands wherever a learner opens, prints or loads something."""

CAUTION = (
    "For training on the ground only, not for navigation. Current charts and publications, "
    "local rules and a licensed instructor come first."
)
