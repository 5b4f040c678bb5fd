global using RigControl.Kernel.Tests.Support;
global using RigControl.Model.Procedures;
global using RigControl.Model.Records;
global using RigControl.Model.Rig;
global using RigControl.Model.Signals;
