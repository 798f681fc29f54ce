"""Physical constants, exact since the SI revision of 2019 (CODATA 2018)."""

ELEMENTARY_CHARGE_C = 1.602176634e-19
BOLTZMANN_J_PER_K = 1.380649e-23
ZERO_CELSIUS_K = 273.15


def thermal_voltage(temperature_c: float) -> float:
    """Thermal voltage kT/q.

    Parameters
    ----------
    temperature_c : float
        Temperature. [degC]

    Returns
    -------
    float
        kT/q. [V]

    Examples
    --------
    >>> round(thermal_voltage(25.0), 10)
    0.0256925791
    """
    return BOLTZMANN_J_PER_K * (temperature_c + ZERO_CELSIUS_K) / ELEMENTARY_CHARGE_C
