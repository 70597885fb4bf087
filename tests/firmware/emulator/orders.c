// SPDX-License-Identifier: GPL-3.0-or-later
// Linked with simavr (GPL-3.0-or-later), and so under the same licence: see LICENCE.md beside it.
#include "bench.h"
#include <avr_adc.h>
#include <stdio.h>
#include <string.h>

// What tests may order; each is answered with `done ORDER` or `unknown ORDER`, a line each.
void obey(char *order)
{
	char word[24] = "", rest[24] = "";
	double number = 0, second = 0, third = 0;
	int input = 0;
	sscanf(order, "%23s %23s", word, rest);
	const bool is_on = !strcmp(rest, "there");
	if (sscanf(order, "volt %d %lf", &input, &number) == 2 && input >= 0 && input < 8)
		avr_raise_irq(avr_io_getirq(avr, AVR_IOCTL_ADC_GETIRQ, ADC_IRQ_ADC0 + input), (uint32_t)(number * 1000 + 0.5));
	else if (sscanf(order, "cups %lf %lf %lf", &number, &second, &third) >= 1)
		cups_turn(number, (int)second, third);
	else if (sscanf(order, "light %lf", &number) == 1)
		light_count = number;
	else if (!strcmp(word, "light"))
		light_is_there = is_on;
	else if (sscanf(order, "celsius %lf", &number) == 1)
		thermometer_celsius = number;
	else if (!strcmp(word, "thermometer"))
		thermometer_is_there = is_on;
	else if (sscanf(order, "supply %lf", &number) == 1)
		avr->vcc = avr->avcc = avr->aref = (uint32_t)(number * 1000 + 0.5);
	else if (sscanf(order, "speed %lf", &number) == 1)
		speed = number;
	else if (sscanf(order, "end-after-lines %d", &input) == 1)
		line_ends_left = input;
	else if (!strcmp(word, "reset"))
		board_reset();
	else if (!strcmp(word, "lose-power"))
		board_lose_power();
	else if (!strcmp(word, "wedge"))
		board_wedge();
	else if (!strcmp(word, "tell"))
		printf("told cycles=%llu asleep=%llu said=%lu unheard=%lu\n", (unsigned long long)avr->cycle,
			(unsigned long long)asleep_cycles, line_said, line_unheard);
	else {
		printf("unknown %s\n", order);
		return;
	}
	printf("done %s\n", order);
}
