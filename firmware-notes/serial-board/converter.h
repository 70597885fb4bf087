// The ten-bit converter, with the supply as its reference.
#pragma once
#include <stdint.h>

// Sixteen conversions of an input added up.
uint16_t readInputSum(uint8_t input);
// The supply, weighed against the chip's own reference of 1.1 V (good to a tenth; steady for one board).
uint16_t readSupplyMillivolt();
