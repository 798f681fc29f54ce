import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import systems
