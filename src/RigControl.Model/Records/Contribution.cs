namespace RigControl.Model.Records;

/// <summary>What one input adds to the uncertainty of a figure: a line of its budget.</summary>
/// <param name="Name">What the input is called.</param>
/// <param name="Uncertainty">Size of the part, in the figure's unit.</param>
/// <param name="Share">Of the variance, 0 to 1.</param>
public sealed record Contribution(string Name, double Uncertainty, double Share);
