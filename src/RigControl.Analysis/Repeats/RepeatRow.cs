namespace RigControl.Analysis.Repeats;

/// <summary>What the repeats of one figure come to, rounded to what is known.</summary>
/// <param name="Name">Of the figure, with its channel where several share a name.</param>
/// <param name="Mean">In <paramref name="Unit"/>.</param>
/// <param name="Half">Half of the 95 % interval of the mean.</param>
/// <param name="Scatter">Standard deviation from one repeat to the next.</param>
/// <param name="Within">Of it, what each repeat is known to by itself.</param>
/// <param name="Between">Of it, what lies between the repeats beyond that.</param>
/// <param name="Common">Standard uncertainty that all repeats share, beside the scatter; 0 where there is none.</param>
/// <param name="Freedom">Effective degrees of freedom of the mean.</param>
/// <param name="Remark">What to mind, such as a drift; empty where there is nothing.</param>
public sealed record RepeatRow(
    string Name, int Count, string Mean, string Half, string Unit, string Scatter, string Within, string Between, string Common, string Freedom, string Remark);
