// What differs from board to board. Change it here, or with -DNAME=VALUE when building.
#pragma once

#ifndef BOARD_NAME
#define BOARD_NAME "sedge-1" // letters, digits, dot, dash, underscore; another one for each board
#endif
#ifndef BAUD_RATE
#define BAUD_RATE 115200 // 9600 for a cable of many metres
#endif
#ifndef INTERVAL_MILLIS
#define INTERVAL_MILLIS 10000UL // time between samples until the hub asks for another
#endif
#ifndef REFERENCE_MILLIVOLT
#define REFERENCE_MILLIVOLT 5000UL // the converter's reference: measure it between 5V and GND once
#endif
#ifndef SERIES_OHM
#define SERIES_OHM 10000UL // the resistor above the thermistor
#endif
#ifndef DEBOUNCE_MICROS
#define DEBOUNCE_MICROS 4000UL // a reed bounces for less; the cups turn slower even in a gale
#endif
#ifndef BOOT_MILLIS
#define BOOT_MILLIS 1000UL // how long the boot loader takes before the sketch runs again
#endif

// 1 where a thermistor stands in for the 1-Wire thermometer
#ifndef HAS_THERMISTOR
#define HAS_THERMISTOR 0
#endif

#define PH_INPUT 0         // A0: output of the pH amplifier
#define MOISTURE_INPUT 1   // A1: output of the moisture probe
#define THERMISTOR_INPUT 2 // A2: between the thermistor (to GND) and its resistor (to 5V)
#define CUPS_PIN 2         // D2: reed switch of the cups, to GND
#define THERMOMETER_BIT 4  // D4: data line of the 1-Wire thermometer (bit of port D)
#define LIGHT_ADDRESS 0x23 // I2C, on A4 (SDA) and A5 (SCL)
