// Package vary turns what is to be varied in a job file into jobs, and works many
// out at once, in order and with memory that does not grow with their number.
package vary
