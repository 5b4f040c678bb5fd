using RigControl.Contracts;

[assembly: RigPlugin(ContractVersion.Major, ContractVersion.Minor)]
