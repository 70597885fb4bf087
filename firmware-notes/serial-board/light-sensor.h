// I2C light sensor with a 16-bit count: measures once when asked (up to 180 ms), then rests.
#pragma once
#include <stdint.h>

void beginLight();
void startLight();
// False when the sensor does not answer.
bool readLight(uint16_t& count);
