// SPDX-License-Identifier: GPL-3.0-or-later
// Linked with simavr (GPL-3.0-or-later), and so under the same licence: see LICENCE.md beside it.
// UART0 on a pseudo-terminal. Bytes take the time the board's baud rate gives them, and are garbled when the program
// at the other end has set another one, as on a wire.
#define _GNU_SOURCE
#include "bench.h"
#include <avr_uart.h>
#include <fcntl.h>
#include <poll.h>
#include <stdio.h>
#include <stdlib.h>
#include <termios.h>
#include <unistd.h>

unsigned long line_said, line_unheard;
int line_ends_left = -1;
int reset_on_open_ms = -1;

static int terminal = -1;
static const char *link_path;
static avr_irq_t *to_board;
static bool is_heard, is_ready = true;
static avr_cycle_count_t reset_at;
static uint8_t waiting[64];
static int waiting_count, waiting_next;

static void fail(const char *what)
{
	perror(what);
	exit(2);
}

static double board_baud(void)
{
	const uint16_t divider = (uint16_t)((avr->data[0xc5] & 0x0f) << 8 | avr->data[0xc4]);
	const bool is_double = avr->data[0xc0] & 2;
	return (double)avr->frequency / ((is_double ? 8 : 16) * (divider + 1.0));
}

static double program_baud(void)
{
	static const struct { speed_t code; double baud; } speeds[] = {
		{ B9600, 9600 }, { B19200, 19200 }, { B38400, 38400 }, { B57600, 57600 }, { B115200, 115200 }, { B230400, 230400 },
	};
	struct termios settings;
	if (tcgetattr(terminal, &settings))
		return 0;
	for (size_t i = 0; i < sizeof speeds / sizeof *speeds; i++)
		if (speeds[i].code == cfgetospeed(&settings))
			return speeds[i].baud;
	return 0;
}

// A receiver that samples at other moments than the sender meant gets anything; a UART bears about 4 %.
static uint8_t across(uint8_t byte)
{
	static uint8_t wrong = 0xe5;
	const double ratio = program_baud() / board_baud();
	if (ratio > 0.96 && ratio < 1.04)
		return byte;
	return wrong = (uint8_t)(wrong * 5 + byte + 1);
}

static void on_byte(avr_irq_t *irq, uint32_t value, void *unused)
{
	(void)irq;
	(void)unused;
	const uint8_t byte = is_heard ? across((uint8_t)value) : (uint8_t)value;
	line_said++;
	// nobody there, or not reading: a wire loses the byte too
	if (!is_heard || write(terminal, &byte, 1) != 1)
		line_unheard++;
	// gone in the same moment, as when the plug is pulled
	if (value == '\n' && line_ends_left > 0 && --line_ends_left == 0)
		_exit(0);
}

static void on_ready(avr_irq_t *irq, uint32_t value, void *unused)
{
	(void)irq;
	(void)value;
	(void)unused;
	is_ready = true;
}

static void on_full(avr_irq_t *irq, uint32_t value, void *unused)
{
	(void)irq;
	(void)value;
	(void)unused;
	is_ready = false;
}

void line_connect(void)
{
	uint32_t flags = 0; // no echo on the console, no waiting in the library
	avr_ioctl(avr, AVR_IOCTL_UART_SET_FLAGS('0'), &flags);
	to_board = avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_INPUT);
	avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUTPUT), on_byte, NULL);
	avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XON), on_ready, NULL);
	avr_irq_register_notify(avr_io_getirq(avr, AVR_IOCTL_UART_GETIRQ('0'), UART_IRQ_OUT_XOFF), on_full, NULL);
}

void line_open(const char *link)
{
	// The system hands out the lowest free number, which a program whose own board has just gone may be trying to open
	// again: take a higher one.
	int lower[32];
	for (int i = 0; i < 32; i++)
		lower[i] = posix_openpt(O_RDWR | O_NOCTTY);
	terminal = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
	for (int i = 0; i < 32; i++)
		close(lower[i]);
	if (terminal < 0 || grantpt(terminal) || unlockpt(terminal))
		fail("pseudo-terminal");
	// raw before anyone opens it, so that nothing is echoed; then closed, so that an opening shows
	const int program_end = open(ptsname(terminal), O_RDWR | O_NOCTTY);
	struct termios settings;
	if (program_end < 0 || tcgetattr(program_end, &settings))
		fail("its other end");
	cfmakeraw(&settings);
	tcsetattr(program_end, TCSANOW, &settings);
	close(program_end);
	unlink(link);
	if (symlink(ptsname(terminal), link))
		fail(link);
	link_path = link;
}

void line_close(void)
{
	unlink(link_path);
}

void line_carry(void)
{
	struct pollfd state = { terminal, POLLIN, 0 };
	poll(&state, 1, 0);
	const bool is_open = !(state.revents & POLLHUP);
	if (is_open && !is_heard && reset_on_open_ms >= 0)
		reset_at = avr->cycle + (avr_cycle_count_t)reset_on_open_ms * (avr->frequency / 1000) + 1;
	if (is_open != is_heard)
		printf("%s\n", is_open ? "opened" : "closed");
	is_heard = is_open;
	if (reset_at && avr->cycle >= reset_at) {
		reset_at = 0;
		board_reset();
	}
	if (waiting_next == waiting_count && (state.revents & POLLIN)) {
		const ssize_t count = read(terminal, waiting, sizeof waiting);
		waiting_next = 0;
		waiting_count = count < 0 ? 0 : (int)count;
	}
	while (is_ready && waiting_next < waiting_count)
		avr_raise_irq(to_board, across(waiting[waiting_next++]));
}
