// SPDX-License-Identifier: GPL-3.0-or-later
// Linked with simavr (GPL-3.0-or-later), and so under the same licence: see LICENCE.md beside it.
// bench [-s SPEED] [-r MILLISECONDS] LINK FIRMWARE.elf
// Runs firmware on an emulated ATmega328P whose serial line is a pseudo-terminal at LINK, with probes that the orders
// on standard input set (orders.c). SPEED: the board's seconds to one of ours, 0 for as many as it can.
// -r: the board is reset this long after a program has opened LINK, as the DTR line of such boards does.
#define _GNU_SOURCE
#include "bench.h"
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sim_elf.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

avr_t *avr;
volatile bool is_over;
double speed = 1;

static const uint32_t FREQUENCY = 16000000;

static void end(int signal)
{
	(void)signal;
	is_over = true;
}

static void log_errors(avr_t *a, const int level, const char *format, va_list arguments)
{
	(void)a;
	if (level <= LOG_ERROR)
		vfprintf(stderr, format, arguments);
}

uint64_t asleep_cycles;

// keeping time is done below
static void do_not_wait(avr_t *a, avr_cycle_count_t cycles)
{
	(void)a;
	asleep_cycles += cycles;
}

void board_reset(void)
{
	avr_reset(avr);
}

// A reset, the watchdog's too, drops all that was planned: the probes begin again.
static void after_reset(void)
{
	thermometer_reset();
	cups_connect();
	printf("reset\n");
}

void board_lose_power(void)
{
	for (uint32_t at = 0x100; at <= avr->ramend; at++)
		avr->data[at] = (uint8_t)rand();
	board_reset();
}

void board_wedge(void)
{
	// an unused place at the end of the flash, before the boot loader's: jump to itself
	const uint32_t place = 0x7000;
	avr->flash[place] = 0xff;
	avr->flash[place + 1] = 0xcf;
	avr->pc = place;
}

static double now(void)
{
	struct timespec time;
	clock_gettime(CLOCK_MONOTONIC, &time);
	return (double)time.tv_sec + (double)time.tv_nsec / 1e9;
}

static void keep_time(void)
{
	static double since, at_speed = -1;
	static avr_cycle_count_t since_cycle;
	if (at_speed != speed) {
		since = now();
		since_cycle = avr->cycle;
		at_speed = speed;
	}
	if (speed <= 0)
		return;
	const double ahead = (double)(avr->cycle - since_cycle) / (FREQUENCY * speed) - (now() - since);
	if (ahead > 0.0005) {
		const struct timespec wait = { (time_t)ahead, (long)((ahead - (double)(time_t)ahead) * 1e9) };
		nanosleep(&wait, NULL);
	} else if (ahead < -0.5)
		at_speed = -1; // fell behind: no hurry to catch up
}

static void read_orders(void)
{
	static char held[512];
	static size_t length;
	static bool is_closed;
	struct pollfd input = { 0, POLLIN, 0 };
	if (is_closed || poll(&input, 1, 0) <= 0)
		return;
	const ssize_t count = read(0, held + length, sizeof held - 1 - length);
	if (count == 0)
		is_closed = is_over = true; // whoever gave the orders is gone
	if (count <= 0)
		return;
	length += (size_t)count;
	held[length] = 0;
	for (char *ends; (ends = strchr(held, '\n')) != NULL;) {
		*ends = 0;
		obey(held);
		length -= (size_t)(ends + 1 - held);
		memmove(held, ends + 1, length + 1);
	}
}

int main(int count, char **words)
{
	for (int option; (option = getopt(count, words, "s:r:")) != -1;) {
		if (option == 's')
			speed = atof(optarg);
		else if (option == 'r')
			reset_on_open_ms = atoi(optarg);
		else
			return 2;
	}
	avr_global_logger_set(log_errors); // the library's own goes to standard output
	elf_firmware_t firmware = { 0 };
	if (optind != count - 2 || elf_read_firmware(words[optind + 1], &firmware)) {
		fprintf(stderr, "usage: bench [-s SPEED] [-r MILLISECONDS] LINK FIRMWARE.elf\n");
		return 2;
	}
	setvbuf(stdout, NULL, _IOLBF, 0);
	avr = avr_make_mcu_by_name("atmega328p");
	avr_init(avr);
	firmware.frequency = FREQUENCY;
	avr_load_firmware(avr, &firmware);
	avr->vcc = avr->avcc = avr->aref = 5000;
	avr->log = LOG_ERROR;
	avr->sleep = do_not_wait;
	line_connect();
	thermometer_connect();
	light_connect();
	cups_connect();
	line_open(words[optind]);
	signal(SIGTERM, end);
	signal(SIGINT, end);
	signal(SIGPIPE, SIG_IGN);
	fcntl(0, F_SETFL, fcntl(0, F_GETFL) | O_NONBLOCK);
	printf("ready\n");
	while (!is_over) {
		const avr_cycle_count_t until = avr->cycle + FREQUENCY / 1000;
		while (avr->cycle < until) {
			if (avr->pc == 0)
				after_reset();
			const int state = avr_run(avr);
			if (state == cpu_Done || state == cpu_Crashed) {
				fprintf(stderr, "the processor stopped in state %d at %u\n", state, avr->pc);
				line_close();
				return 1;
			}
		}
		line_carry();
		read_orders();
		keep_time();
	}
	line_close();
	return 0;
}
