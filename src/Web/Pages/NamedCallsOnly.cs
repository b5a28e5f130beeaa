using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.Filters;

namespace KittingBee.Web.Pages;

/// <summary>
/// Refuses a call that the page has no method for, such as a PUT or a button that no form of ours has. The framework would lay the page out
/// all the same, without anything having been read for it.
/// </summary>
public sealed class NamedCallsOnly : IPageFilter
{
    public void OnPageHandlerSelected(PageHandlerSelectedContext context)
    {
    }

    public void OnPageHandlerExecuting(PageHandlerExecutingContext context)
    {
        var method = context.HttpContext.Request.Method;

        // A page that needs nothing read for it is got without a method of its own; the error page answers whatever went wrong.
        if (context.HandlerMethod is null && context.HandlerInstance is not ErrorModel && !HttpMethods.IsGet(method) && !HttpMethods.IsHead(method))
        {
            context.Result = new StatusCodeResult(StatusCodes.Status405MethodNotAllowed);
        }
    }

    public void OnPageHandlerExecuted(PageHandlerExecutedContext context)
    {
    }
}
