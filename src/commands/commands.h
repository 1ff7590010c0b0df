/* The verbs. Each takes its own arguments (argv[0] is the verb) and returns an exit status. */
#ifndef COMMANDS_COMMANDS_H
#define COMMANDS_COMMANDS_H

int command_press(int argc, char **argv);
int command_proof(int argc, char **argv);
int command_weigh(int argc, char **argv);
int command_worksheet(int argc, char **argv);
int command_impact(int argc, char **argv);
int command_larder(int argc, char **argv);
int command_begin(int argc, char **argv);
int command_sitting(int argc, char **argv);
int command_rules(int argc, char **argv);

#endif
