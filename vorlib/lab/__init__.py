"""The notebooks in JupyterLab: a learner's own copies, saving them, and their kernels."""
