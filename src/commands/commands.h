/* The verbs. Each takes its own arguments (argv[0] is the verb) and returns an exit status. */
#ifndef COMMANDS_COMMANDS_H
#define COMMANDS_COMMANDS_H

int commands_press(int argc, char **argv);
int commands_proof(int argc, char **argv);
int commands_weigh(int argc, char **argv);
int commands_worksheet(int argc, char **argv);
int commands_impact(int argc, char **argv);
int commands_larder(int argc, char **argv);
int commands_begin(int argc, char **argv);
int commands_sitting(int argc, char **argv);
int commands_rules(int argc, char **argv);

#endif
