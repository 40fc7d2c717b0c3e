"""The tables as revision 0001 made them. Written down once; never edited after release."""
