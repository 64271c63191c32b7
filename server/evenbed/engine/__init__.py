"""The trade's arithmetic: pure functions over plain data, standard library only.

The same files run in the service and, through Pyodide, in the phone.
Lengths are mm, areas m², volumes m³, masses kg, temperatures °C, unless a name says otherwise.
x runs to the right and y up on the drawing, z up; z = 0 at the benchmark.
"""
