// 1-Wire thermometer, alone on its line, with a supply wire of its own: needs 750 ms to measure.
#pragma once
#include <stdint.h>

void beginThermometer();
void startThermometer();
// False when nothing answers, or its checksum is wrong.
bool readThermometer(uint16_t& sixteenths);
